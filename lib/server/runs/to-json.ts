import type { Prisma } from "@/lib/server/prisma-client/client";

/** A plain value as a `jsonb` column takes it: what is undefined is left out, as JSON does. */
export function toJson(value: object): Prisma.InputJsonObject {
  return JSON.parse(JSON.stringify(value)) as Prisma.InputJsonObject;
}
