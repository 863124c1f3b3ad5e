import type { RunProposal } from "@/lib/domain/booking/run-plan";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { ok, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import { joinPlans } from "@/lib/domain/sharing/join-plans";
import { moneyText } from "@/lib/domain/tariff/money";
import { now } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { newSharer, plannedSharers, type OwnedSharer } from "@/lib/server/joining/load-sharers";
import { placeShared, steamOutEnds } from "@/lib/server/joining/place-shared";
import { sharedCost, type SharedCost } from "@/lib/server/joining/shared-cost";
import { notLapsed } from "@/lib/server/rows/not-lapsed";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { kilnFromOf, kilnOf } from "@/lib/server/rows/kiln-of";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { loadTariff } from "@/lib/server/rows/tariff";
import { notPlanned } from "@/lib/server/runs/end-run";

/** A firing as it would be with one casting more. */
export type JoinedRun = {
  readonly plan: CastingPlan;
  readonly sharers: readonly OwnedSharer[];
  readonly kiln: KilnToPlan;
  readonly run: RunProposal;
  readonly cost: SharedCost;
};

export type CastingToJoin = {
  readonly castingId: string;
  readonly title: string;
  readonly memberId: string;
  readonly withdrawnAt: Date | null;
  readonly input: unknown;
  readonly member: { readonly name: string };
  readonly firings: readonly { readonly firingId: string }[];
};

type Asking = Pick<Ctx, "tx" | "who" | "now">;

/** The casting that might join, with the firings it stands on. */
export function findCastingToJoin(tx: Asking["tx"], castingId: string): Promise<CastingToJoin | null> {
  return tx.casting.findFirst({ where: { castingId }, include: { member: { select: { name: true } }, firings: { where: { standing: true, firing: notLapsed(now()) }, select: { firingId: true } } } });
}

/** Why a casting may not even be thought of for this firing, whatever its glass. */
export function mayNotJoin({ now }: Pick<Asking, "now">, firing: LockedFiring, casting: CastingToJoin): Refusal | undefined {
  const { title, castingId } = casting;
  const ended = notPlanned(firing);
  if (ended !== undefined) return ended;
  if (casting.withdrawnAt !== null) return refuse({ code: "withdrawn", field: "castingId", message: `${title} was withdrawn; a withdrawn casting joins no firing.` });
  if (firing.castings.some((one) => one.castingId === castingId)) return refuse({ code: "already-in", field: "castingId", message: `${title} is in this firing already.` });
  const [other] = casting.firings;
  if (other !== undefined) return refuse({ code: "already-booked", field: "castingId", message: `${title} has a run already. Cancel that one first, or take it out of its firing.`, data: { firingId: other.firingId } });
  const kiln = kilnOf(firing);
  if (kiln === undefined || kiln.startsAt.getTime() <= now.epochMilliseconds) return refuse({ code: "too-late", field: "firingId", message: "This firing's time has come; nothing can join it any more." });
  return undefined;
}

/** The kiln of a firing as it is planned for now. */
export async function kilnToPlanOf(tx: Asking["tx"], firing: Pick<LockedFiring, "bookings">): Promise<Outcome<KilnToPlan>> {
  const kilnId = kilnOf(firing)?.equipmentId;
  const kiln = (await kilnsToPlan(tx, await loadEquipment(tx))).find(({ equipmentId }) => equipmentId === kilnId);
  return kiln === undefined ? refuse({ code: "not-found", field: "firingId", message: "The kiln of this firing is no longer in use." }) : ok(kiln);
}

/** Joins the plans, places the longer run where the firing stands, and splits its cost; or the first reason against it. */
export async function joinedRun(asking: Asking, firing: LockedFiring, casting: CastingToJoin): Promise<Outcome<JoinedRun>> {
  const { tx, who } = asking;
  const refusal = mayNotJoin(asking, firing, casting);
  if (refusal !== undefined) return refusal;
  const kiln = await kilnToPlanOf(tx, firing);
  if (!kiln.ok) return kiln;
  const inside = await plannedSharers(tx, firing.plan, firing.castings.map((one) => one.casting), kiln.value);
  if (!inside.ok) return inside;
  const joining = await newSharer(tx, casting, kiln.value);
  if (!joining.ok) return joining;
  const sharers = [...inside.value, joining.value];
  const plan = joinPlans(sharers, kiln.value.limits);
  if (!plan.ok) return plan;
  const kilnFrom = kilnFromOf(firing);
  const run = await placeShared(asking, firing, { plan: plan.value, kiln: kiln.value, kilnFrom, kept: steamOutEnds(firing), orLater: true });
  if (!run.ok) return run;
  const cost = sharedCost(sharers, plan.value, await loadTariff(tx), run.value.kilnFrom, who.timeZone);
  return cost.shares === null ? refuse(dearer(cost)) : ok({ plan: plan.value, sharers, kiln: kiln.value, run: run.value, cost });
}

function dearer({ currency, total, apart }: SharedCost) {
  const text = (value: number): string => (currency === null ? `${Math.round(value / 100) / 10} kWh` : moneyText(value, currency));
  return { code: "dearer-together", field: "castingId", value: total, allowed: `up to ${text(apart)}`, message: `Fired together they would cost ${text(total)}, apart ${text(apart)}: somebody would pay more than alone, so this is not proposed.` };
}
