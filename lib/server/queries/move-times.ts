import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { DRAIN_HOURS } from "@/lib/domain/booking/run-plan";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { can } from "@/lib/domain/access/roles";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { Problem } from "@/lib/domain/refusal";
import { toInstant, toPlainDate } from "@/lib/server/clock";
import { query, type Reading } from "@/lib/server/query";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { loadEquipment } from "@/lib/server/rows/equipment";
import { meshOf } from "@/lib/server/rows/mesh";
import { kilnsToPlan } from "@/lib/server/rows/kilns-to-plan";
import { kilnPlans } from "@/lib/server/runs/kiln-plans";
import { readNotBefore } from "@/lib/server/runs/not-before";
import { plansAndRefusals, runOffers, type Offers } from "@/lib/server/runs/run-offers";
import { loadRunQuestion } from "@/lib/server/runs/run-question";
import { SHARED_TITLES, titleOf } from "@/lib/server/rows/firing-title";
import { isShared } from "@/lib/server/rows/in-firing";
import { placeShared, steamOutEnds } from "@/lib/server/joining/place-shared";
import { kilnOf } from "@/lib/server/rows/kiln-of";

const PER_KILN = 4;

export type MoveTimesScreen = {
  readonly firingId: string;
  readonly version: number;
  readonly title: string;
  /** Others are in it: it moves on its own kiln only, and they are owed a reason. */
  readonly shared: boolean;
  readonly owner: string;
  readonly mine: boolean;
  readonly status: string;
  readonly kilnName: string;
  readonly kilnFrom: string;
  readonly kilnTo: string;
  readonly neededBy: string | null;
  readonly today: string;
  readonly requestKey: string;
  readonly problems: readonly Problem[];
  readonly offers: Offers;
};

type Input = { readonly firingId: string; readonly notBefore?: string | undefined };

/** Where a planned run could stand instead, its own bookings not in its way; null when it is not this person's to move. */
export const moveTimes = query({
  name: "move-times",
  needs: "book-runs",
  run: async (reading: Reading, { firingId, notBefore }: Input): Promise<MoveTimesScreen | null> => {
    const { who, now } = reading;
    const firing = await loadFiring(reading, firingId);
    const kiln = firing === null ? undefined : kilnOf(firing);
    if (firing === null || kiln === undefined) return null;
    const mine = firing.memberId === who.memberId;
    if (!mine && !can(who.roles, "manage-runs")) return null;
    const { casting } = firing.plan;
    const screen = {
      firingId,
      version: firing.version,
      title: titleOf(firing.plan),
      shared: isShared(firing),
      owner: firing.member.name,
      mine,
      status: firing.status,
      kilnName: kiln.equipment.name,
      kilnFrom: kiln.startsAt.toISOString(),
      kilnTo: kiln.endsAt.toISOString(),
      neededBy: casting.neededBy === null ? null : toPlainDate(casting.neededBy).toString(),
      today: now.toZonedDateTimeISO(who.timeZone).toPlainDate().toString(),
      requestKey: randomUUID(),
    };
    const nothing = { kilns: [], refusals: [] };
    const from = readNotBefore(notBefore, now, who.timeZone);
    if (!from.ok) return { ...screen, problems: from.problems, offers: nothing };
    if (firing.status !== "planned") return { ...screen, problems: [], offers: nothing };
    if (isShared(firing)) return { ...screen, problems: [], offers: await sharedOffers(reading, firing, kiln.equipmentId, from.value) };
    const input = readCastingInput(casting.input);
    if (!input.ok) return { ...screen, problems: input.problems, offers: nothing };
    const steam = firing.bookings.find((booking) => booking.purpose === "steam-out");
    const steamed = steam !== undefined && steam.startsAt.getTime() <= now.epochMilliseconds ? toInstant(steam.endsAt) : undefined;
    return { ...screen, problems: [], offers: await offersFor(reading, firing, kiln.equipmentId, input.value, from.value, steamed) };
  },
});

type Firing = NonNullable<Awaited<ReturnType<typeof loadFiring>>>;

function loadFiring({ tx }: Reading, firingId: string) {
  return tx.firing.findFirst({
    where: { firingId },
    include: {
      member: { select: { name: true } },
      plan: { include: { casting: true, ...SHARED_TITLES } },
      castings: { where: { standing: true }, include: { casting: { include: { member: { select: { name: true } } } } } },
      bookings: { where: { standing: true }, include: { equipment: true } },
    },
  });
}

/** A shared firing keeps its joined plan and so its kiln; only starts at which every mould can be steamed and dried are offered. */
async function sharedOffers(reading: Reading, firing: Firing, kilnId: string, notBefore: ReturnType<typeof toInstant>): Promise<Offers> {
  const { tx, who, now } = reading;
  const equipment = (await loadEquipment(tx)).filter((item) => item.kind !== "kiln" || item.equipmentId === kilnId);
  const plan = storedPlan(firing.plan.outputs);
  const question = await loadRunQuestion(tx, who, {
    plan, planByKiln: new Map([[kilnId, plan]]), equipment, driedBeforeLoading: false, notBefore, neededBy: null, perKiln: PER_KILN,
    ownerId: firing.memberId, withoutFiring: firing.firingId, steamedOutAt: notBefore.subtract({ hours: DRAIN_HOURS }),
  });
  const offers = runOffers(question, new Map());
  const kiln = equipment.find((item) => item.kind === "kiln");
  const kept = steamOutEnds(firing, now);
  const kilns = await Promise.all(offers.kilns.map(async (one) => {
    const runs = [];
    for (const run of one.runs) {
      const placed = kiln === undefined ? undefined : await placeShared(reading, firing, { plan, kiln, kilnFrom: Temporal.Instant.from(run.kilnFrom), kept });
      if (placed?.ok === true) runs.push(run);
    }
    return { ...one, runs };
  }));
  return { ...offers, kilns };
}

/** On its own kiln the run keeps the plan it was booked with; for the others the casting is planned as it is now. */
async function offersFor({ tx, who }: Reading, firing: Firing, ownKilnId: string, input: CastingInput, notBefore: ReturnType<typeof toInstant>, steamedOutAt: ReturnType<typeof toInstant> | undefined): Promise<Offers> {
  const equipment = await loadEquipment(tx);
  const own = storedPlan(firing.plan.outputs);
  const planned = kilnPlans(input, await kilnsToPlan(tx, equipment), await meshOf(tx, input));
  const { plans, refused } = planned.ok ? plansAndRefusals(planned.value.byKiln) : { plans: new Map(), refused: new Map<string, string>() };
  plans.set(ownKilnId, own);
  refused.delete(ownKilnId);
  const { neededBy } = firing.plan.casting;
  const question = await loadRunQuestion(tx, who, {
    plan: own,
    planByKiln: plans,
    equipment,
    driedBeforeLoading: input.mould?.driedBeforeLoading ?? false,
    notBefore,
    neededBy: neededBy === null ? null : toPlainDate(neededBy),
    perKiln: PER_KILN,
    ownerId: firing.memberId,
    withoutFiring: firing.firingId,
    steamedOutAt,
  });
  return runOffers(question, refused);
}
