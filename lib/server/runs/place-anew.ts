import { readCastingInput } from "@/lib/contracts/casting-input";
import type { Outcome } from "@/lib/domain/refusal";
import { toInstant, toPlainDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { kilnOf } from "@/lib/server/rows/kiln-of";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { placeRun, type Placed } from "@/lib/server/runs/place-run";
import { steamedOutAt } from "@/lib/server/runs/replace-bookings";

export type AnewFiring = Pick<LockedFiring, "firingId" | "memberId" | "bookings"> & { readonly plan: { readonly casting: Pick<LockedFiring["plan"]["casting"], "input" | "neededBy"> } };

/**
 * The run of the casting as it is now, in the kiln of its firing and from the same closing of the door. Its
 * steam-out stays where it is if it can, and moves with the run if the new mould needs it otherwise.
 */
export async function placeAnew(ctx: Pick<Ctx, "tx" | "who" | "now">, firing: AnewFiring): Promise<Outcome<Placed>> {
  const kiln = kilnOf(firing);
  if (kiln === undefined) throw new Error(`firing ${firing.firingId} stands without a kiln`);
  const input = readCastingInput(firing.plan.casting.input);
  if (!input.ok) return input;
  const { neededBy } = firing.plan.casting;
  const steam = firing.bookings.find(({ purpose }) => purpose === "steam-out");
  const wanted = {
    input: input.value,
    neededBy: neededBy === null ? null : toPlainDate(neededBy),
    ownerId: firing.memberId,
    kilnId: kiln.equipmentId,
    kilnFrom: toInstant(kiln.startsAt),
    withoutFiring: firing.firingId,
    steamedOutAt: steamedOutAt(firing, ctx.now),
  };
  const kept = steam === undefined || wanted.steamedOutAt !== undefined ? undefined : toInstant(steam.startsAt);
  const placed = await placeRun(ctx, { ...wanted, steamFrom: kept });
  return placed.ok || kept === undefined ? placed : placeRun(ctx, wanted);
}
