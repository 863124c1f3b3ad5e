import { OPERATIONS } from "@/lib/contracts/api/operations";
import { ok } from "@/lib/domain/refusal";
import { endpoint } from "@/lib/server/api/endpoint";
import { methods } from "@/lib/server/api/methods";
import { equipmentList } from "@/lib/server/queries/equipment-list";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: endpoint(OPERATIONS.listEquipment, async ({ who }) => ok(await equipmentList(who, undefined))),
});
