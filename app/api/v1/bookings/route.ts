import { OPERATIONS } from "@/lib/contracts/api/operations";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { listBookings } from "@/lib/server/queries/bookings";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: endpoint(OPERATIONS.listBookings, async ({ who, query }) => listBookings(who, query)),
});
