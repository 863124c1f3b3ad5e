import { describe, expect, test } from "vitest";
import { findClashes, type ClashState, type OpenAsk, type StandingBooking, type StandingRun } from "@/lib/domain/booking/clash";
import { aKiln, aSteamer, aTrolley, at, hours } from "./sample-question";

function booking(purpose: StandingBooking["purpose"], equipmentId: string, start: string, end: string, hands = 0): StandingBooking {
  return { bookingId: `${purpose}-${equipmentId}-${start}`, purpose, equipmentId, start: at(start), end: at(end), hands };
}

/** Loaded on Monday 7 December 10:00, unloaded on Monday 14 December 10:00, free at 12:30. */
function aRun(firingId: string, change: Partial<StandingRun> = {}): StandingRun {
  return {
    firingId,
    title: "Seal",
    ownerMemberId: "ida",
    ownerName: "Ida Holm",
    status: "planned",
    kilnId: "A",
    bookings: [
      booking("load", "T", "2026-12-07T10:00", "2026-12-07T10:45", 2),
      booking("kiln", "A", "2026-12-07T10:45", "2026-12-14T12:30"),
      booking("unload", "T", "2026-12-14T10:00", "2026-12-14T10:30", 1),
    ],
    heatingHours: 30,
    expectedEnd: null,
    plannedHours: 160,
    ...change,
  };
}

function aBowl(change: Partial<StandingRun> = {}, kilnId = "A", loadStart = "2026-12-14T13:00", doorClosed = "2026-12-14T13:30"): StandingRun {
  return aRun("bowl", {
    title: "Bowl",
    ownerName: "Bo Lind",
    kilnId,
    bookings: [booking("load", "U", loadStart, doorClosed, 1), booking("kiln", kilnId, doorClosed, "2026-12-21T12:00")],
    ...change,
  });
}

function anAsk(askId: string, from: string, to: string, kilnId = "A"): OpenAsk {
  return { askId, title: "Moon", memberName: "Kai Berg", kilnId, from: at(from), to: at(to) };
}

function clashes(change: Partial<ClashState>) {
  return findClashes({
    runs: [],
    asks: [],
    outages: [],
    equipment: [aKiln("A"), aKiln("B"), aSteamer("S"), aTrolley("T"), aTrolley("U")],
    hours,
    powerLimitKw: null,
    ...change,
  });
}

test("a settled calendar has no clash", () => {
  expect(clashes({ runs: [aRun("seal"), aBowl()], powerLimitKw: 9 })).toEqual([]);
});

describe("crowded", () => {
  test("an ask that ends as the firing's kiln booking starts only touches it; a minute more is a clash", () => {
    const with_ = (to: string) => clashes({ runs: [aRun("seal")], asks: [anAsk("moon", "2026-12-01T00:00", to)] });
    expect(with_("2026-12-07T10:45")).toEqual([]);
    const [clash] = with_("2026-12-07T10:46");
    expect(clash).toMatchObject({ key: "crowded:moon:seal", kind: "crowded", firingIds: ["seal"], askIds: ["moon"], equipmentIds: ["A"] });
    expect(clash?.sentence).toBe("Kai Berg (Moon) asks for Kiln A while Seal by Ida Holm holds it: Mon 7 Dec, 10:45 to 10:46.");
  });

  test("says that a started firing stays", () => {
    const [clash] = clashes({ runs: [aRun("seal", { status: "started" })], asks: [anAsk("moon", "2026-12-10T00:00", "2026-12-20T00:00")] });
    expect(clash?.startedFiringIds).toEqual(["seal"]);
    expect(clash?.sentence).toContain("Seal by Ida Holm has started and stays where it is.");
  });

  test("two asks for the same weeks of one kiln, whichever comes first in the list; other kilns do not matter", () => {
    const a = anAsk("a", "2026-12-07T00:00", "2026-12-21T00:00");
    const b = anAsk("b", "2026-12-14T00:00", "2026-12-28T00:00");
    expect(clashes({ asks: [a, b] }).map((clash) => clash.key)).toEqual(["crowded:a:b"]);
    expect(clashes({ asks: [b, a] }).map((clash) => clash.key)).toEqual(["crowded:a:b"]);
    expect(clashes({ asks: [a, { ...b, kilnId: "B" }] })).toEqual([]);
    expect(clashes({ asks: [a, { ...b, from: a.to }] })).toEqual([]);
  });
});

describe("overrun", () => {
  // From door closed on the 7th at 10:45 to unloading on the 14th at 10:00 are 167.25 hours.
  test("a plan as long as what is booked until unloading fits, a minute longer does not", () => {
    expect(clashes({ runs: [aRun("seal", { plannedHours: 167.25 })] })).toEqual([]);
    const [clash] = clashes({ runs: [aRun("seal", { plannedHours: 167.25 + 1 / 60 })] });
    expect(clash).toMatchObject({ key: "overrun:seal", kind: "overrun", firingIds: ["seal"] });
    expect(clash?.sentence).toContain("No other firing is touched");
  });

  test("names the next firing on the kiln once the kiln would be free too late for its loading", () => {
    // Free at 12:30 as booked, loading of the bowl at 13:00: half an hour to spare.
    const over = (end: string) => clashes({ runs: [aRun("seal", { expectedEnd: at(end) }), aBowl()] });
    expect(over("2026-12-14T10:30")[0]?.firingIds).toEqual(["seal"]);
    const [clash] = over("2026-12-14T10:31");
    expect(clash?.firingIds).toEqual(["seal", "bowl"]);
    expect(clash?.sentence).toBe(
      "Seal by Ida Holm on Kiln A runs 31 minutes over: it is expected to be cool only at Mon 14 Dec, 10:31, and is booked to be unloaded at Mon 14 Dec, 10:00. This touches Bowl by Bo Lind, which needs Kiln A from Mon 14 Dec, 13:00.",
    );
  });

  test("an expected end counts for more than the plan, in both directions", () => {
    expect(clashes({ runs: [aRun("seal", { plannedHours: 300, expectedEnd: at("2026-12-14T10:00") })] })).toEqual([]);
  });

  test("the next firing on another kiln is not touched", () => {
    const [clash] = clashes({ runs: [aRun("seal", { expectedEnd: at("2026-12-15T10:00") }), aBowl({}, "B")] });
    expect(clash?.firingIds).toEqual(["seal"]);
  });
});

describe("outage", () => {
  test("an outage that ends as the booking starts only touches it; without an end it meets everything later", () => {
    const until = (to: string | null) =>
      clashes({ runs: [aRun("seal")], outages: [{ outageId: "o", equipmentId: "A", from: at("2026-12-01T08:00"), to: to === null ? null : at(to), reason: "new elements" }] });
    expect(until("2026-12-07T10:45")).toEqual([]);
    expect(until("2026-12-07T11:00").map((clash) => clash.key)).toEqual(["outage:o:seal"]);
    expect(until(null)[0]?.sentence).toBe(
      "Kiln A is out of service from Tue 1 Dec, 08:00 until further notice (new elements); Seal by Ida Holm needs it to fire from Mon 7 Dec, 10:45.",
    );
  });

  test("a trolley out of service at loading and unloading is one clash", () => {
    const [clash, ...others] = clashes({ runs: [aRun("seal")], outages: [{ outageId: "o", equipmentId: "T", from: at("2026-12-01T08:00"), to: null, reason: "wheel" }] });
    expect(others).toEqual([]);
    expect(clash?.sentence).toContain("needs it to load and to unload from Mon 7 Dec, 10:00.");
    expect(clash?.end.equals(at("2026-12-14T10:30"))).toBe(true);
  });
});

describe("thin crew", () => {
  const lift = (firingId: string, start: string, end: string, hands: number) =>
    aRun(firingId, { title: firingId, bookings: [booking("load", firingId, start, end, hands)] });

  test("three on duty: lifts for three at once are allowed, for four are not, and touching lifts do not add up", () => {
    const two = lift("one", "2026-12-08T10:00", "2026-12-08T10:30", 2);
    expect(clashes({ runs: [two, lift("two", "2026-12-08T10:15", "2026-12-08T10:45", 1)] })).toEqual([]);
    expect(clashes({ runs: [two, lift("two", "2026-12-08T10:30", "2026-12-08T11:00", 2)] })).toEqual([]);
    const [clash] = clashes({ runs: [two, lift("two", "2026-12-08T10:15", "2026-12-08T10:45", 2)] });
    expect(clash?.kind).toBe("thin-crew");
    expect(clash?.sentence).toBe("Lifts of one by Ida Holm and two by Ida Holm need 4 people and 3 are on duty: Tue 8 Dec, 10:15 to 10:30.");
  });

  test("a lift that ends at closing is allowed, one a minute later is not, and one on a closed day is not", () => {
    expect(clashes({ runs: [lift("one", "2026-12-08T16:30", "2026-12-08T17:00", 1)] })).toEqual([]);
    expect(clashes({ runs: [lift("one", "2026-12-08T16:31", "2026-12-08T17:01", 1)] })).toHaveLength(1);
    const closed = { ...hours, closures: [{ from: "2026-12-08", to: "2026-12-08", reason: "fair" }] };
    expect(clashes({ hours: closed, runs: [lift("one", "2026-12-08T10:00", "2026-12-08T10:30", 1)] })[0]?.sentence).toContain("need 1 person and nobody is on duty");
  });

  test("a steam-out takes people at its two ends only", () => {
    const steam = aRun("steam", { bookings: [booking("steam-out", "S", "2026-12-08T09:00", "2026-12-08T13:00", 2)] });
    expect(clashes({ runs: [steam, lift("one", "2026-12-08T09:15", "2026-12-08T12:45", 3)] })).toEqual([]);
    expect(clashes({ runs: [steam, lift("one", "2026-12-08T09:14", "2026-12-08T12:46", 3)] })).toHaveLength(2);
  });

  test("planned lifts count instead of bookings where they are known, also without a trolley", () => {
    const run = aRun("one", { lifts: [{ what: "load", start: at("2026-12-08T10:00"), end: at("2026-12-08T10:30"), hands: 4, trolleyId: null }] });
    expect(clashes({ runs: [run] })).toHaveLength(1);
  });
});

describe("overload", () => {
  const pair = [aRun("seal"), aBowl({ heatingHours: 10, bookings: [booking("kiln", "B", "2026-12-08T10:00", "2026-12-20T12:00")] }, "B")];

  test("two kilns of 9 kW that heat together: below and at the limit no, above it yes", () => {
    expect(clashes({ runs: pair, powerLimitKw: 20 })).toEqual([]);
    expect(clashes({ runs: pair, powerLimitKw: 18 })).toEqual([]);
    const [clash] = clashes({ runs: pair, powerLimitKw: 17.9 });
    expect(clash).toMatchObject({ key: "overload:bowl:seal", equipmentIds: ["A", "B"] });
    // The seal heats for 30 hours from 10:45 on the 7th, until 16:45 on the 8th.
    expect(clash?.sentence).toBe(
      "Kiln A and Kiln B heating together may draw 18 kW, above the electrician's limit of 17.9 kW: Tue 8 Dec, 10:00 to 16:45 (Seal by Ida Holm and Bowl by Bo Lind).",
    );
  });

  test("a kiln that starts as the other one begins to soak does not add up", () => {
    const runs = [aRun("seal"), aBowl({ bookings: [booking("kiln", "B", "2026-12-08T16:45", "2026-12-20T12:00")] }, "B")];
    expect(clashes({ runs, powerLimitKw: 9 })).toEqual([]);
  });

  test("three that overlap in turn are one clash with its highest sum", () => {
    const on = (id: string, start: string) => aRun(id, { title: id, heatingHours: 20, bookings: [booking("kiln", id, start, "2026-12-20T12:00")] });
    const runs = [on("A", "2026-12-07T10:00"), on("B", "2026-12-07T20:00"), on("C", "2026-12-08T04:00")];
    const found = clashes({ runs, powerLimitKw: 10, equipment: [aKiln("A"), aKiln("B"), aKiln("C")] });
    expect(found).toHaveLength(1);
    expect(found[0]?.sentence).toContain("may draw 27 kW");
    expect(found[0]?.end.equals(at("2026-12-08T16:00"))).toBe(true);
  });
});

test("clashes that are over are left out, and the rest come in order of time", () => {
  const runs = [aRun("seal", { expectedEnd: at("2026-12-15T10:00") })];
  const asks = [anAsk("moon", "2026-12-01T00:00", "2026-12-08T00:00")];
  expect(clashes({ runs, asks }).map((clash) => clash.kind)).toEqual(["crowded", "overrun"]);
  expect(clashes({ runs, asks, since: at("2026-12-08T00:00") }).map((clash) => clash.kind)).toEqual(["overrun"]);
});
