import type { Temporal } from "temporal-polyfill";
import type { StandingLift } from "@/lib/domain/booking/clash";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { steamOutEnds } from "@/lib/server/joining/place-shared";
import { readFirings, type LockedFiring } from "@/lib/server/rows/lock-firing";
import { liftWhat } from "@/lib/server/rows/standing-runs";

type KeptLift = StandingLift & { readonly liftId: string };

/** A booked run that is to move: what of it stays where it is, since it has begun, and the lifts it gives up. */
export type MovingFiring = {
  readonly firing: LockedFiring;
  readonly steamed: ReadonlyMap<string, Temporal.Instant>;
  readonly keptBookings: LockedFiring["bookings"];
  readonly keptLifts: readonly KeptLift[];
  readonly givenUpLifts: readonly StandingLift[];
};

/** With the firings that its casting stands on. */
function readAsks(tx: Tx, askIds: readonly string[]) {
  return tx.ask.findMany({ where: { askId: { in: [...askIds] } }, include: { casting: { include: { firings: { where: { standing: true }, select: { firingId: true } } } }, member: { select: { name: true } } } });
}

export type MovingAsk = Awaited<ReturnType<typeof readAsks>>[number];

/** What a settlement moves or books, by the ids of its runs. */
export type MovingRuns = { readonly firings: ReadonlyMap<string, MovingFiring>; readonly asks: ReadonlyMap<string, MovingAsk> };

/** Reads all of them at once. Refused when one of the asks waits no more. */
export async function readMovingRuns(tx: Tx, moves: readonly { readonly runId: string; readonly isAsk: boolean }[], now: Temporal.Instant): Promise<Outcome<MovingRuns>> {
  const ids = (isAsk: boolean): string[] => moves.filter((move) => move.isAsk === isAsk).map(({ runId }) => runId);
  const firings = await readFirings(tx, ids(false));
  const lifts = await tx.lift.findMany({ where: { firingId: { in: ids(false) }, standing: true }, orderBy: { startsAt: "asc" } });
  const asks = await readAsks(tx, ids(true));
  const [gone] = moves.filter(({ runId, isAsk }) => (isAsk ? !asks.some(({ askId }) => askId === runId) : !firings.some(({ firingId }) => firingId === runId)));
  if (gone !== undefined) return refuse({ code: "not-found", field: "moves", message: "A run of this way out is not there any more.", data: { runId: gone.runId } });
  const answered = asks.find(({ status }) => status !== "open");
  if (answered !== undefined) return refuse({ code: "answered", field: "moves", message: `The ask for ${answered.casting.title} was ${answered.status} already.`, data: { runId: answered.askId } });
  const booked = asks.find(({ casting }) => casting.firings.length > 0);
  if (booked !== undefined) return refuse({ code: "already-booked", field: "moves", message: `${booked.casting.title} has a run already.`, data: { runId: booked.askId } });
  const moving = (firing: LockedFiring): MovingFiring => {
    const steamed = steamOutEnds(firing, now);
    const stays = (castingId: string | null): boolean => steamed.has(castingId ?? firing.plan.castingId);
    const own = lifts.filter(({ firingId }) => firingId === firing.firingId).map(({ liftId, what, castingId, startsAt, endsAt, hands, trolleyId }) => ({
      stays: stays(castingId) && (what === "to-steamer" || what === "from-steamer"),
      lift: { liftId, what: liftWhat(what), start: toInstant(startsAt), end: toInstant(endsAt), hands, trolleyId },
    }));
    return {
      firing, steamed,
      keptBookings: firing.bookings.filter(({ purpose, castingId }) => purpose === "steam-out" && stays(castingId)),
      keptLifts: own.filter((one) => one.stays).map(({ lift }) => lift),
      givenUpLifts: own.filter((one) => !one.stays).map(({ lift }) => lift),
    };
  };
  return ok({ firings: new Map(firings.map((firing) => [firing.firingId, moving(firing)])), asks: new Map(asks.map((ask) => [ask.askId, ask])) });
}
