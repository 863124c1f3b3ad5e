import { describe, expect, test } from "vitest";
import { Temporal } from "temporal-polyfill";
import { findRuns } from "@/lib/domain/booking/find-time";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { RunProposal } from "@/lib/domain/booking/run-plan";
import { aKiln, aPlan, aQuestion, aSteamer, aTrolley, at, hours, zone } from "./sample-question";

function first(question: RunQuestion): RunProposal {
  const run = findRuns(question).kilns[0]?.runs[0];
  if (run === undefined) throw new Error(`no run: ${findRuns(question).kilns[0]?.whyNot}`);
  return run;
}

function wall(instant: Temporal.Instant): string {
  return instant.toZonedDateTimeISO(zone).toPlainDateTime().toString({ smallestUnit: "minute" });
}

function parts(run: RunProposal): string[] {
  return run.bookings.map((booking) => `${booking.purpose} ${booking.equipmentId} ${wall(booking.start)} ${wall(booking.end)}`);
}

describe("the earliest run in an empty workshop", () => {
  test("steams at opening, drains two hours, loads, and unloads in the first staffed hours after the reservation", () => {
    expect(parts(first(aQuestion()))).toEqual([
      "steam-out S 2026-12-07T09:00 2026-12-07T12:00",
      "load T 2026-12-07T14:00 2026-12-07T14:45",
      "kiln A 2026-12-07T14:45 2026-12-14T11:30",
      "unload T 2026-12-14T09:00 2026-12-14T09:30",
    ]);
  });

  test("says who lifts what, from where to where", () => {
    expect(first(aQuestion()).lifts.map((lift) => [lift.what, wall(lift.start), lift.hands, lift.trolleyId, lift.fromPlace, lift.toPlace])).toEqual([
      ["to-steamer", "2026-12-07T09:00", 1, null, "Mould bench", "Steamer S"],
      ["from-steamer", "2026-12-07T11:45", 1, null, "Steamer S", "Drying rack"],
      ["load", "2026-12-07T14:00", 2, "T", "Drying rack", "Kiln A"],
      ["unload", "2026-12-14T09:00", 1, "T", "Kiln A", "Demoulding bench"],
    ]);
  });

  test("a mould dried in air waits the most drying days that its date allows, never fewer than the least", () => {
    const run = first(aQuestion({ driedBeforeLoading: true }));
    expect(parts(run).slice(0, 2)).toEqual(["steam-out S 2026-12-07T09:00 2026-12-07T12:00", "load T 2026-12-11T12:00 2026-12-11T12:45"]);
    const second = findRuns(aQuestion({ driedBeforeLoading: true })).kilns[0]?.runs[1];
    expect(second?.bookings.slice(0, 2).map((booking) => wall(booking.start))).toEqual(["2026-12-07T09:00", "2026-12-14T09:00"]);
  });

  test("offers each alternative on a later day", () => {
    const runs = findRuns(aQuestion({ perKiln: 3 })).kilns[0]?.runs ?? [];
    expect(runs.map((run) => wall(run.kilnFrom))).toEqual(["2026-12-07T14:45", "2026-12-08T09:45", "2026-12-09T09:45"]);
  });

  test("bare glass needs no steamer", () => {
    const run = first(aQuestion({ plan: aPlan({ steamOut: { hours: 0, condensateKg: 0 } }), equipment: [aKiln("A"), aTrolley("T")] }));
    expect(run.steamerId).toBeNull();
    expect(parts(run)[0]).toBe("load T 2026-12-07T09:00 2026-12-07T09:45");
  });

  test("a mould steamed out already only waits for its gap", () => {
    const run = first(aQuestion({ steamedOutAt: at("2026-12-07T10:00") }));
    expect(parts(run)[0]).toBe("load T 2026-12-07T12:00 2026-12-07T12:45");
  });
});

describe("what stands in the way", () => {
  test("a standing booking that ends as loading starts does not, one that ends a minute later does", () => {
    const until = (end: string) => first(aQuestion({ busy: [{ equipmentId: "A", start: at("2026-12-01T00:00"), end: at(end) }] }));
    expect(wall(until("2026-12-07T14:00").kilnFrom)).toBe("2026-12-07T14:45");
    expect(wall(until("2026-12-07T14:01").kilnFrom)).toBe("2026-12-07T15:00");
  });

  test("the kiln is free again before the next firing is loaded, not only before its door closes", () => {
    const next = (loadingFrom: string) =>
      first(aQuestion({ busy: [{ equipmentId: "A", start: at("2026-12-14T12:15"), loadingFrom: at(loadingFrom), end: at("2026-12-20T12:00") }] }));
    expect(wall(next("2026-12-14T11:30").kilnFrom)).toBe("2026-12-07T14:45");
    expect(wall(next("2026-12-14T11:29").kilnFrom)).toBe("2026-12-21T09:45");
  });

  test("hands at other lifts: three on duty and two taken leave one, too few to load", () => {
    const taken = (hands: number) => first(aQuestion({ lifts: [{ start: at("2026-12-07T13:00"), end: at("2026-12-07T15:00"), hands }] }));
    expect(wall(taken(1).kilnFrom)).toBe("2026-12-07T14:45");
    expect(wall(taken(2).kilnFrom)).toBe("2026-12-07T15:45");
  });

  test("a trolley in use: the other one is taken, the weaker first", () => {
    const run = first(
      aQuestion({
        equipment: [aKiln("A"), aSteamer("S"), aTrolley("strong", 300), aTrolley("weak", 60)],
        busy: [{ equipmentId: "weak", start: at("2026-12-07T14:00"), end: at("2026-12-07T16:00") }],
      }),
    );
    expect([run.trolleyIdLoad, run.trolleyIdUnload]).toEqual(["strong", "weak"]);
  });

  test("the electrician's limit: at it both heat together, above it the later one waits", () => {
    const limited = (powerLimitKw: number) =>
      first(aQuestion({ powerLimitKw, heating: [{ kilnId: "B", start: at("2026-12-07T00:00"), end: at("2026-12-08T12:00"), kw: 9 }] }));
    expect(wall(limited(18).kilnFrom)).toBe("2026-12-07T14:45");
    expect(wall(limited(17.9).kilnFrom)).toBe("2026-12-08T12:00");
  });

  test("a kiln above the limit alone never heats", () => {
    expect(findRuns(aQuestion({ powerLimitKw: 8 })).kilns[0]?.whyNot).toBe("Kiln A draws 9 kW while it heats; the electrician's limit is 8 kW.");
  });

  test("the horizon: free again exactly then is allowed, a minute less is not", () => {
    const by = (horizon: string) => findRuns(aQuestion({ horizon: at(horizon) })).kilns[0];
    expect(by("2026-12-14T11:30")?.runs).toHaveLength(1);
    expect(by("2026-12-14T11:29")?.runs).toHaveLength(0);
    expect(by("2026-12-14T11:29")?.whyNot).toBe("Kiln A is not free for 6 days 16 hours at a stretch before Mon 14 Dec 2026, 11:29.");
  });

  test("no steamer, and no trolley where one is needed, are said for all kilns", () => {
    expect(findRuns(aQuestion({ equipment: [aKiln("A"), aKiln("B")] })).refusals).toEqual([
      "To load 24.0 kg a trolley is needed, and the workshop has none.",
      "To unload 24.0 kg a trolley is needed, and the workshop has none.",
      "The wax must be steamed out, and the workshop has no steamer.",
    ]);
  });

  test("a trolley rated too low is named with its figures", () => {
    expect(findRuns(aQuestion({ equipment: [aKiln("A"), aSteamer("S"), aTrolley("T", 50, 30)] })).refusals[0]).toBe(
      "To load 24.0 kg a trolley is needed, and none is rated for it: Trolley T is rated 50 kg; the load of 24 kg and the trolley's own 30 kg make 54 kg.",
    );
  });

  test("more hands than are ever on duty", () => {
    const few = { ...hours, weekly: hours.weekly.map((day) => ({ ...day, hands: 1 })) };
    expect(findRuns(aQuestion({ hours: few })).refusals).toEqual(["To load 24.0 kg takes 2 people; at most 1 is on duty at any time."]);
  });

  test("a load too tall for every kiln", () => {
    const plan = aPlan({ loadMm: { width: 280, depth: 230, height: 650 } });
    const found = findRuns(aQuestion({ plan, equipment: [aKiln("A"), aKiln("B", { insideMm: [500, 500, 620] })] }));
    expect(found.refusals).toEqual(["No kiln is 700 mm tall inside; the tallest is 620 mm."]);
    expect(found.kilns[1]?.whyNot).toBe("Kiln B is 620 mm tall inside; the load needs 700 mm with 50 mm headroom.");
  });
});

describe("days and nights", () => {
  test("an unloading that falls on a weekend waits for Monday, and the kiln stays held", () => {
    const run = first(aQuestion({ plan: aPlan({ reservation: { hours: 110, kilnWeeks: 0.65, marginHours: 5, marginWhy: "" } }) }));
    expect(wall(run.readyAt)).toBe("2026-12-14T09:30");
    expect(wall(run.kilnTo)).toBe("2026-12-14T11:30");
  });

  test("steam-out ends on the day it starts: three hours from 14:00 would, from 14:15 wait for the next day", () => {
    const from = (notBefore: string) => wall(first(aQuestion({ notBefore: at(notBefore) })).bookings[0]?.start ?? at(notBefore));
    expect(from("2026-12-07T14:00")).toBe("2026-12-07T14:00");
    expect(from("2026-12-07T14:01")).toBe("2026-12-08T09:00");
  });

  test("only a steam-out longer than any staffed day runs overnight, and ends when somebody is there", () => {
    const plan = (steamHours: number) => aPlan({ steamOut: { hours: steamHours, condensateKg: 5 } });
    expect(parts(first(aQuestion({ plan: plan(8) })))[0]).toBe("steam-out S 2026-12-07T09:00 2026-12-07T17:00");
    expect(parts(first(aQuestion({ plan: plan(8.5) })))[0]).toBe("steam-out S 2026-12-07T09:00 2026-12-08T09:15");
  });

  test("a steamed mould waits 21 days at most, so its steam-out moves with a kiln that is free late", () => {
    const run = first(aQuestion({ busy: [{ equipmentId: "A", start: at("2026-12-01T00:00"), end: at("2027-01-18T09:00") }] }));
    expect(parts(run).slice(0, 2)).toEqual(["steam-out S 2027-01-15T09:00 2027-01-15T12:00", "load T 2027-01-18T09:00 2027-01-18T09:45"]);
  });

  test("with the steamer taken in the last 21 days the loading waits for it", () => {
    const run = first(
      aQuestion({
        busy: [
          { equipmentId: "A", start: at("2026-12-01T00:00"), end: at("2027-01-18T09:00") },
          { equipmentId: "S", start: at("2026-12-20T00:00"), end: at("2027-01-19T10:00") },
        ],
      }),
    );
    expect(parts(run).slice(0, 2)).toEqual(["steam-out S 2027-01-19T10:00 2027-01-19T13:00", "load T 2027-01-19T15:00 2027-01-19T15:45"]);
  });

  test("the reservation counts elapsed hours across the spring change of 28 March 2027", () => {
    const plan = aPlan({ reservation: { hours: 162, kilnWeeks: 162 / 168, marginHours: 5, marginWhy: "" } });
    // 14:45 on 22 March plus 162 hours is 08:45 on the 29th by the old clock and 09:45 by the new one.
    const run = first(aQuestion({ plan, notBefore: at("2027-03-22T08:00"), horizon: at("2027-06-01T00:00") }));
    expect(wall(run.kilnFrom)).toBe("2027-03-22T14:45");
    expect(parts(run).at(-1)).toBe("unload T 2027-03-29T09:45 2027-03-29T10:15");
  });

  test("and across the autumn change of 31 October 2027", () => {
    const plan = aPlan({ reservation: { hours: 164, kilnWeeks: 164 / 168, marginHours: 5, marginWhy: "" } });
    const run = first(aQuestion({ plan, notBefore: at("2027-10-25T08:00"), horizon: at("2028-01-01T00:00") }));
    expect(parts(run).at(-1)).toBe("unload T 2027-11-01T09:45 2027-11-01T10:15");
  });

  test("a late run is offered and says by how many days", () => {
    const by = (date: string) => first(aQuestion({ neededBy: Temporal.PlainDate.from(date) })).daysLate;
    expect([by("2026-12-15"), by("2026-12-14"), by("2026-12-13"), by("2026-12-04")]).toEqual([0, 0, 1, 10]);
  });

  test("takes drying times that end between two milliseconds, as a calculation gives them", () => {
    const plan = aPlan({ drying: { airDaysFrom: 2.287182935825285, airDaysTo: 9.14873174330114 } });
    const run = first(aQuestion({ plan, driedBeforeLoading: true }));
    const steamed = run.bookings.find((booking) => booking.purpose === "steam-out");
    const loaded = run.bookings.find((booking) => booking.purpose === "load");
    if (steamed === undefined || loaded === undefined) throw new Error("half a run");
    expect(loaded.start.since(steamed.end).total({ unit: "hours" })).toBeGreaterThanOrEqual(2.28 * 24);
  });
});
