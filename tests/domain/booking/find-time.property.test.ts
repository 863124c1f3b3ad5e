import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { findRuns } from "@/lib/domain/booking/find-time";
import { findClashes, type StandingRun } from "@/lib/domain/booking/clash";
import type { BusySpan, RunQuestion } from "@/lib/domain/booking/run-question";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { stepList } from "@/lib/domain/booking/taken-calendar";
import { overlaps } from "@/lib/domain/time/interval";
import { handsOnDuty, staffedWindows, type WorkshopHours } from "@/lib/domain/time/staffed-hours";
import { aKiln, aPlan, aQuestion, aSteamer, aTrolley, at, hours, zone } from "./sample-question";

const MINUTE = 60_000;
const QUARTER = 15 * MINUTE;
/** As a calculation gives them: neither whole minutes nor whole milliseconds. */
const DRY_DAYS = 1.28718293582;
const HEATING_HOURS = 9.1234567;
const RUNS = 60;
/** Generous, because two busy cores may share these with everything else; nothing is measured. */
const PATIENCE_MS = 120_000;

/** Small instances around the clock changes of 2027 and in between, with short firings so that a brute-force search can finish. */
const starts = ["2027-03-25T08:00", "2027-10-28T08:00", "2026-12-07T08:00"] as const;

const spanFrom = (origin: Temporal.Instant, days: number) =>
  fc.tuple(fc.integer({ min: 0, max: days * 96 }), fc.integer({ min: 1, max: 96 }), fc.integer({ min: 0, max: 14 })).map(([from, length, odd]) => ({
    start: origin.add({ minutes: from * 15 + odd }),
    end: origin.add({ minutes: (from + length) * 15 + odd }),
  }));

const lunchHours: WorkshopHours = {
  timeZone: zone,
  weekly: ([1, 2, 3, 4, 5, 7] as const).flatMap((weekday) => [
    { weekday, opensMin: 8 * 60, closesMin: 12 * 60, hands: 2 },
    { weekday, opensMin: 13 * 60, closesMin: 17 * 60 + 20, hands: 3 },
  ]),
  closures: [{ from: "2027-03-29", to: "2027-03-29", reason: "holiday" }],
};

const questions: fc.Arbitrary<RunQuestion> = fc.constantFrom(...starts).chain((start) => {
  const origin = at(start);
  return fc
    .record({
      busy: fc.array(fc.tuple(fc.constantFrom("A", "S", "S2", "T", "U"), spanFrom(origin, 8)), { maxLength: 14 }),
      lifts: fc.array(fc.tuple(spanFrom(origin, 8), fc.integer({ min: 1, max: 3 })), { maxLength: 6 }),
      heating: fc.array(spanFrom(origin, 8), { maxLength: 4 }),
      dried: fc.boolean(),
      steamHours: fc.constantFrom(0, 1.5, 3, 9.1, 12),
      reservation: fc.integer({ min: 10, max: 70 }),
      loadHands: fc.constantFrom(1, 2, 3),
      lunch: fc.boolean(),
      days: fc.integer({ min: 4, max: 13 }),
    })
    .map((drawn) => ({
      ...aQuestion({
        plan: smallPlan(drawn.steamHours, drawn.reservation, drawn.loadHands),
        driedBeforeLoading: drawn.dried,
        equipment: [aKiln("A", { turnaroundHours: 1 }), aSteamer("S"), aSteamer("S2"), aTrolley("T"), aTrolley("U", 200)],
        hours: drawn.lunch ? lunchHours : hours,
        notBefore: origin,
        horizon: origin.add({ hours: 24 * drawn.days }),
        powerLimitKw: 15,
        perKiln: 2,
      }),
      busy: drawn.busy.map(([equipmentId, span]): BusySpan => ({ equipmentId, ...span })),
      lifts: drawn.lifts.map(([span, hands]) => ({ ...span, hands })),
      heating: drawn.heating.map((span) => ({ ...span, kilnId: "B", kw: 9 })),
    }));
});

function smallPlan(steamHours: number, reservationHours: number, loadHands: number) {
  const plan = aPlan();
  return aPlan({
    steamOut: { hours: steamHours, condensateKg: 1 },
    drying: { airDaysFrom: DRY_DAYS, airDaysTo: 3 },
    firing: { ...plan.firing, stages: [{ stage: "Climb", toC: 850, rateKPerH: 100, hours: HEATING_HOURS, why: "" }, { stage: "Soak", toC: 480, rateKPerH: 0, hours: 5, why: "" }] },
    reservation: { hours: reservationHours, kilnWeeks: reservationHours / 168, marginHours: 1, marginWhy: "" },
    lifts: plan.lifts.map((lift) => (lift.what === "load" ? { ...lift, hands: loadHands } : lift)),
  });
}

/** A plain second opinion: tries every quarter hour for every part, with nothing sorted and nothing skipped. */
function bruteForce(question: RunQuestion): number | null {
  const from = question.notBefore.epochMilliseconds;
  const to = question.horizon.epochMilliseconds;
  const { plan } = question;
  const windows = [...staffedWindows(question.hours, question.notBefore, question.horizon)].map((w) => ({ start: w.start.epochMilliseconds, end: w.end.epochMilliseconds, hands: w.hands }));
  const isBusy = (id: string, start: number, end: number) =>
    question.busy.some((busy) => busy.equipmentId === id && busy.start.epochMilliseconds < end && start < busy.end.epochMilliseconds);
  const amountAt = (spans: readonly { start: Temporal.Instant; end: Temporal.Instant; by: number }[], t: number) =>
    spans.reduce((sum, span) => (span.start.epochMilliseconds <= t && t < span.end.epochMilliseconds ? sum + span.by : sum), 0);
  const peak = (spans: readonly { start: Temporal.Instant; end: Temporal.Instant; by: number }[], start: number, end: number) =>
    Math.max(amountAt(spans, start), ...spans.map((s) => s.start.epochMilliseconds).filter((t) => t >= start && t < end).map((t) => amountAt(spans, t)));
  const taken = question.lifts.map((lift) => ({ ...lift, by: lift.hands }));
  const heating = question.heating.map((span) => ({ ...span, by: span.kw }));
  const canLift = (start: number, minutes: number, hands: number, trolleys: boolean) => {
    const end = start + minutes * MINUTE;
    const window = windows.find((w) => w.start <= start && end <= w.end);
    if (window === undefined || peak(taken, start, end) + hands > window.hands) return false;
    return !trolleys || ["T", "U"].some((id) => !isBusy(id, start, end));
  };
  const day = (t: number) => Temporal.Instant.fromEpochMilliseconds(t).toZonedDateTimeISO(zone).toPlainDate().toString();
  const longestDay = question.hours === lunchHours ? 9 + 1 / 3 : 8;
  const gap = (question.driedBeforeLoading ? DRY_DAYS * 24 : 2) * 60 * MINUTE;
  const steamEnds: number[] = [];
  if (plan.steamOut.hours > 0) {
    for (let start = from; start < to; start += QUARTER) {
      if (!canLift(start, 15, 1, false)) continue;
      let end = Math.ceil((start + plan.steamOut.hours * 60 * MINUTE) / QUARTER) * QUARTER;
      while (end <= to && !canLift(end - QUARTER, 15, 1, false)) end += QUARTER;
      if (end > to || (plan.steamOut.hours <= longestDay && day(start) !== day(end - 1))) continue;
      if (["S", "S2"].some((id) => !isBusy(id, start, end))) steamEnds.push(end);
    }
  }
  const load = plan.lifts.find((lift) => lift.what === "load");
  const minutes = (load?.hands ?? 0) >= 2 ? 45 : 30;
  for (let start = from; start < to; start += QUARTER) {
    if (!canLift(start, minutes, load?.hands ?? 0, true)) continue;
    const closed = start + minutes * MINUTE;
    let open = closed + plan.reservation.hours * 60 * MINUTE;
    while (open < to && !canLift(open, 30, 1, true)) open += QUARTER;
    const free = open + 90 * MINUTE;
    if (free > to || isBusy("A", start, free)) continue;
    if (peak(heating, closed, closed + HEATING_HOURS * 60 * MINUTE) + 9 > 15) continue;
    if (plan.steamOut.hours > 0 && !steamEnds.some((end) => end + gap <= start)) continue;
    return closed;
  }
  return null;
}

/** As the server reads it: every second booking, lift and heating among the numbers, the others as they were. */
function packed(question: RunQuestion): RunQuestion {
  const ms = ({ start, end }: { readonly start: Temporal.Instant; readonly end: Temporal.Instant }) => ({ start: start.epochMilliseconds, end: end.epochMilliseconds });
  const odd = <V>(list: readonly V[]) => list.filter((_, i) => i % 2 === 1);
  const even = <V>(list: readonly V[]) => list.filter((_, i) => i % 2 === 0);
  const busy = new Map<string, { starts: Float64Array; ends: Float64Array }[]>();
  for (const { equipmentId, ...span } of odd(question.busy)) {
    const { start, end } = ms(span);
    busy.set(equipmentId, [...(busy.get(equipmentId) ?? []), { starts: Float64Array.of(start), ends: Float64Array.of(end) }]);
  }
  const calendar = {
    busy,
    lifts: stepList(odd(question.lifts).map((lift) => ({ ...ms(lift), amount: lift.hands }))),
    heating: stepList(odd(question.heating).map((span) => ({ ...ms(span), amount: span.kw }))),
  };
  return { ...question, busy: even(question.busy), lifts: even(question.lifts), heating: even(question.heating), calendar };
}

function runsOf(question: RunQuestion): readonly RunProposal[] {
  return findRuns(question).kilns[0]?.runs ?? [];
}

describe("whatever stands on the calendar", () => {
  test("the first run found is the earliest there is, and none is found only when there is none", () => {
    fc.assert(
      fc.property(questions, (question) => {
        expect(runsOf(question)[0]?.kilnFrom.epochMilliseconds ?? null).toBe(bruteForce(question));
      }),
      { numRuns: RUNS * 2 },
    );
  }, PATIENCE_MS);

  test("no booking of a run overlaps a standing one or starts off the quarter hour", () => {
    fc.assert(
      fc.property(questions, (question) => {
        for (const booking of runsOf(question).flatMap((run) => run.bookings)) {
          expect(question.busy.filter((busy) => busy.equipmentId === booking.equipmentId && overlaps(busy, booking))).toEqual([]);
          expect(booking.start.toZonedDateTimeISO(zone).minute % 15).toBe(0);
        }
      }),
      { numRuns: RUNS },
    );
  }, PATIENCE_MS);

  test("every lift is staffed, the kiln is held long enough, and its door opens no sooner than the plan says", () => {
    fc.assert(
      fc.property(questions, (question) => {
        for (const run of runsOf(question)) {
          for (const lift of run.lifts) expect(handsOnDuty(question.hours, lift)).toBeGreaterThanOrEqual(lift.hands);
          const unload = run.lifts.find((lift) => lift.what === "unload");
          const heldHours = ((unload?.start.epochMilliseconds ?? 0) - run.kilnFrom.epochMilliseconds) / (60 * MINUTE);
          expect(heldHours).toBeGreaterThanOrEqual(question.plan.reservation.hours);
        }
      }),
      { numRuns: RUNS },
    );
  }, PATIENCE_MS);

  test("the same calendar packed as numbers gives the same runs", () => {
    fc.assert(
      fc.property(questions, (question) => {
        expect(JSON.stringify(findRuns(packed(question)))).toBe(JSON.stringify(findRuns(question)));
      }),
      { numRuns: RUNS },
    );
  }, PATIENCE_MS);

  test("one more booking, lift or heating never makes the earliest run earlier", () => {
    const more = fc.tuple(questions, fc.constantFrom("A", "S", "T"), fc.integer({ min: 0, max: 700 }), fc.integer({ min: 1, max: 96 }));
    fc.assert(
      fc.property(more, ([question, equipmentId, from, length]) => {
        const span = { start: question.notBefore.add({ minutes: from * 15 }), end: question.notBefore.add({ minutes: (from + length) * 15 }) };
        const before = runsOf(question)[0]?.kilnFrom.epochMilliseconds ?? Infinity;
        const fuller: RunQuestion[] = [
          { ...question, busy: [...question.busy, { equipmentId, ...span }] },
          { ...question, lifts: [...question.lifts, { ...span, hands: 1 }] },
          { ...question, heating: [...question.heating, { ...span, kilnId: "C", kw: 7 }] },
        ];
        for (const one of fuller) expect(runsOf(one)[0]?.kilnFrom.epochMilliseconds ?? Infinity).toBeGreaterThanOrEqual(before);
      }),
      { numRuns: RUNS },
    );
  }, PATIENCE_MS);

  test("the order in which bookings are listed changes nothing", () => {
    fc.assert(
      fc.property(questions, (question) => {
        const turned = { ...question, busy: [...question.busy].reverse(), lifts: [...question.lifts].reverse(), heating: [...question.heating].reverse() };
        expect(JSON.stringify(findRuns(turned))).toBe(JSON.stringify(findRuns(question)));
      }),
      { numRuns: RUNS },
    );
  }, PATIENCE_MS);
});

test("runs booked one after another, each where it was found, never clash", () => {
  const booked: StandingRun[] = [];
  const equipment = [aKiln("A"), aKiln("B"), aKiln("C"), aSteamer("S"), aTrolley("T")];
  const base = aQuestion({ equipment, powerLimitKw: 18, horizon: at("2027-05-01T00:00"), notBefore: at("2027-03-08T08:00"), perKiln: 1 });
  for (let i = 0; i < 12; i++) {
    const question = { ...base, ...standing(booked) };
    const kiln = findRuns(question).kilns[i % 3];
    const run = kiln?.runs[0];
    if (run === undefined) throw new Error(kiln?.whyNot ?? "no kiln");
    booked.push(stand(run, `f${i}`));
  }
  expect(findClashes({ runs: booked, asks: [], outages: [], equipment, hours, powerLimitKw: 18 })).toEqual([]);
});

function stand(run: RunProposal, firingId: string): StandingRun {
  return {
    firingId,
    title: firingId,
    ownerMemberId: "ida",
    ownerName: "Ida Holm",
    status: "planned",
    kilnId: run.kilnId,
    bookings: run.bookings.map((booking, at_) => ({ ...booking, bookingId: `${firingId}-${at_}` })),
    lifts: run.lifts,
    heatingHours: run.heatingHours,
    expectedEnd: null,
    plannedHours: 160,
  };
}

function standing(runs: readonly StandingRun[]): Pick<RunQuestion, "busy" | "lifts" | "heating"> {
  return {
    busy: runs.flatMap((run) => run.bookings.map((booking) => ({ ...booking, loadingFrom: booking.purpose === "kiln" ? booking.start.subtract({ minutes: 45 }) : booking.start }))),
    lifts: runs.flatMap((run) => run.lifts ?? []),
    heating: runs.flatMap((run) =>
      run.bookings.filter((booking) => booking.purpose === "kiln").map(({ start }) => ({ kilnId: run.kilnId, start, end: start.add({ hours: run.heatingHours }), kw: 9 })),
    ),
  };
}
