import { acceptSettlement as accept } from "@/lib/server/commands/accept-settlement";
import { inWorkshop } from "@/lib/server/db";
import { objectionsTo } from "@/lib/server/ways-out/verify-settlement";
import type { Who } from "@/lib/server/who";

/** Import after useFreshDatabase. Accepts as the command does, and then looks over the database once more: what was committed must hold. */
export async function acceptSettlement(who: Who, order: unknown): ReturnType<typeof accept> {
  const accepted = await accept(who, order);
  if (!accepted.ok) return accepted;
  const objections = await inWorkshop(who.workshopId, (tx) => objectionsTo(tx, accepted.value.settlementId));
  if (objections.length > 0) throw new Error(objections.map(({ sentence }) => sentence).join(" "));
  return accepted;
}
