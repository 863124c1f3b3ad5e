import type { Temporal } from "temporal-polyfill";
import type { Clash, ClashState, StandingBooking, StandingRun } from "@/lib/domain/booking/clash";
import type { Interval } from "@/lib/domain/time/interval";

/** "Seal by Ida Holm"; a title alone could be anybody's. */
export function firingName(run: StandingRun): string {
  return `${run.title} by ${run.ownerName}`;
}

export function equipmentName(state: ClashState, equipmentId: string): string {
  return state.equipment.find((item) => item.equipmentId === equipmentId)?.name ?? "a removed piece of equipment";
}

export function kilnBooking(run: StandingRun): StandingBooking | undefined {
  return run.bookings.find((booking) => booking.purpose === "kiln");
}

export function startedOnly(runs: readonly StandingRun[]): string[] {
  return runs.filter((run) => run.status === "started").map((run) => run.firingId);
}

/** " Seal by Ida Holm has started and stays where it is." for those that have, otherwise nothing. */
export function staysText(runs: readonly StandingRun[]): string {
  return runs
    .filter((run) => run.status === "started")
    .map((run) => ` ${firingName(run)} has started and stays where it is.`)
    .join("");
}

export function clashOf(kind: Clash["kind"], keyParts: readonly string[], interval: Interval, runs: readonly StandingRun[], rest: Pick<Clash, "equipmentIds" | "askIds" | "sentence">): Clash {
  return {
    key: [kind, ...keyParts].join(":"),
    kind,
    start: interval.start,
    end: interval.end,
    firingIds: runs.map((run) => run.firingId),
    startedFiringIds: startedOnly(runs),
    ...rest,
  };
}

export function listed(names: readonly string[]): string {
  if (names.length <= 1) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`;
}

export function later(a: Temporal.Instant, b: Temporal.Instant): Temporal.Instant {
  return a.epochNanoseconds >= b.epochNanoseconds ? a : b;
}

export function sooner(a: Temporal.Instant, b: Temporal.Instant): Temporal.Instant {
  return a.epochNanoseconds <= b.epochNanoseconds ? a : b;
}
