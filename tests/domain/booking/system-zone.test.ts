import { afterAll, expect, test } from "vitest";
import { findClashes } from "@/lib/domain/booking/clash";
import { findRuns } from "@/lib/domain/booking/find-time";
import { runAt } from "@/lib/domain/booking/run-at";
import { stageTimes } from "@/lib/domain/booking/stage-times";
import { showInterval, showTimeWithYear } from "@/lib/domain/time/show-time";
import { timeHeld } from "@/lib/domain/time/kiln-weeks";
import { aQuestion, at, hours, stages, zone } from "./sample-question";

const usual = process.env["TZ"];
afterAll(() => {
  if (usual === undefined) delete process.env["TZ"];
  else process.env["TZ"] = usual;
});

/** Everything that has to do with clocks, once; across both clock changes of 2027. */
function everything(): string {
  return ["2027-03-24T08:00", "2027-10-27T08:00"]
    .map((from) => {
      const question = aQuestion({ notBefore: at(from), horizon: at("2027-12-24T00:00"), perKiln: 3 });
      const found = findRuns(question);
      const run = found.kilns[0]?.runs[0];
      if (run === undefined) throw new Error("no run");
      const moved = runAt(question, "A", run.kilnFrom.add({ hours: 24 * 5 }));
      const clashes = findClashes({
        runs: [{ firingId: "f", title: "Seal", ownerMemberId: "m", ownerName: "Ida Holm", status: "planned", kilnId: "A", bookings: run.bookings.map((b, i) => ({ ...b, bookingId: String(i) })), heatingHours: 30, expectedEnd: null, plannedHours: 200 }],
        asks: [],
        outages: [],
        equipment: question.equipment,
        hours,
        powerLimitKw: 5,
      });
      const shown = [showTimeWithYear(run.kilnFrom, zone), showInterval({ start: run.kilnFrom, end: run.kilnTo }, zone)];
      return JSON.stringify([found, moved, clashes, shown, timeHeld(run.kilnFrom, run.kilnTo, zone), stageTimes(stages, run.kilnFrom, run.kilnTo)]);
    })
    .join("\n");
}

test("the zone of the machine changes nothing", () => {
  const offsets = new Set<number>();
  const answers = new Set<string>();
  for (const systemZone of ["UTC", "America/New_York", "Pacific/Auckland"]) {
    process.env["TZ"] = systemZone;
    offsets.add(new Date(2027, 6, 1).getTimezoneOffset());
    answers.add(everything());
  }
  expect(offsets.size).toBe(3);
  expect(answers.size).toBe(1);
});
