import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { takenByRun, withoutRuns, withRun } from "@/lib/domain/booking/calendar-change";
import { spansIn, stepList, stepsIn, type TakenCalendar } from "@/lib/domain/booking/taken-calendar";

const HOUR = 3_600_000;
const at = (hour: number): Temporal.Instant => Temporal.Instant.fromEpochMilliseconds(hour * HOUR);
const spans = (...all: readonly (readonly [number, number])[]) => [{ starts: Float64Array.from(all, ([from]) => from * HOUR), ends: Float64Array.from(all, ([, to]) => to * HOUR) }];

/** Steamed in hours 1 to 4, loaded in hour 9 on T, fired on K until 60, unloaded in hour 57. */
const run = takenByRun({
  bookings: [
    { purpose: "steam-out", equipmentId: "S", start: at(1), end: at(4) }, { purpose: "load", equipmentId: "T", start: at(9), end: at(10) },
    { purpose: "kiln", equipmentId: "K", start: at(10), end: at(60) }, { purpose: "unload", equipmentId: "T", start: at(57), end: at(58) },
  ],
  lifts: [{ what: "load", start: at(9), end: at(10), hands: 2 }, { what: "unload", start: at(57), end: at(58), hands: 1 }],
  heatingHours: 8.5,
}, 12);

const calendar = (busy: Readonly<Record<string, ReturnType<typeof spans>>>, lifts: TakenCalendar["lifts"] = stepList([]), heating = stepList([])): TakenCalendar => ({ busy: new Map(Object.entries(busy)), lifts, heating });
const plain = ({ busy, lifts, heating }: TakenCalendar) => {
  const sorted = <T extends { readonly start: number; readonly end: number }>(all: readonly T[]): T[] => all.toSorted((a, b) => a.start - b.start || a.end - b.end);
  return { busy: [...busy].map(([id, lists]) => [id, sorted(lists.flatMap(spansIn))] as const).filter(([, all]) => all.length > 0).sort(([a], [b]) => (a < b ? -1 : 1)), lifts: sorted(stepsIn(lifts)), heating: sorted(stepsIn(heating)) };
};

describe("a run in a calendar of numbers", () => {
  it("takes its kiln from the loading on, its lifts, and kilowatts while it heats", () => {
    expect(plain(withRun(calendar({ K: spans([0, 8]) }), run))).toEqual({
      busy: [["K", [{ start: 0, end: 8 * HOUR }, { start: 9 * HOUR, end: 60 * HOUR }]], ["S", [{ start: HOUR, end: 4 * HOUR }]], ["T", [{ start: 9 * HOUR, end: 10 * HOUR }, { start: 57 * HOUR, end: 58 * HOUR }]]],
      lifts: [{ start: 9 * HOUR, end: 10 * HOUR, amount: 2 }, { start: 57 * HOUR, end: 58 * HOUR, amount: 1 }],
      heating: [{ start: 10 * HOUR, end: 18.5 * HOUR, amount: 12 }],
    });
  });

  it("takes its kiln from the loading on when that needs no trolley either", () => {
    const bare = takenByRun({ bookings: [{ purpose: "kiln", equipmentId: "K", start: at(10), end: at(60) }], lifts: [{ what: "load", start: at(9), end: at(10), hands: 1 }], heatingHours: 1 }, 9);
    expect(bare.busy).toEqual([{ equipmentId: "K", start: 9 * HOUR, end: 60 * HOUR, closedAt: 10 * HOUR }]);
  });

  it("leaves nothing behind, wherever its kiln was counted from and until when", () => {
    const counted = calendar({ K: [...spans([10, 60]), ...spans([10, 75])], S: spans([1, 4]), T: spans([9, 10], [57, 58]) }, stepList(run.lifts), stepList(run.heating.map((one) => ({ ...one, end: one.end + 0.4 }))));
    expect(plain(withoutRuns(counted, [run]))).toEqual({ busy: [], lifts: [], heating: [] });
  });

  it("leaves what touches it, and what is like it", () => {
    const twin = { start: 9 * HOUR, end: 10 * HOUR, amount: 2 };
    const other = calendar({ K: spans([0, 9], [60, 70]), S: spans([4, 5]), T: spans([10, 11]) }, stepList([twin]), stepList([{ start: 10 * HOUR, end: 18.5 * HOUR, amount: 9 }]));
    expect(plain(withoutRuns(withRun(other, run), [run]))).toEqual(plain(other));
    expect(plain(withoutRuns(other, []))).toEqual(plain(other));
  });

  it("is in and out of any calendar without a trace", () => {
    const some = fc.array(fc.tuple(fc.integer({ min: 0, max: 80 }), fc.integer({ min: 1, max: 9 })), { maxLength: 6 });
    fc.assert(fc.property(some, some, some, (kiln, lifts, heating) => {
      const steps = (all: readonly (readonly [number, number])[]) => stepList(all.map(([from, length]) => ({ start: from * HOUR, end: (from + length) * HOUR, amount: length })));
      const free = kiln.filter(([from]) => from !== 9 && from !== 10).map(([from, length]) => [from, from + length] as const);
      const before = calendar({ K: spans(...free) }, steps(lifts), steps(heating));
      expect(plain(withoutRuns(withRun(before, run), [run]))).toEqual(plain(before));
    }));
  });
});
