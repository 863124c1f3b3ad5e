import { describe, expect, test } from "vitest";
import { findClashes } from "@/lib/domain/booking/clash";
import { findRuns } from "@/lib/domain/booking/find-time";
import { inspectedBy, inspectionOutages, inspectionSpans } from "@/lib/domain/booking/inspection";
import { runAt } from "@/lib/domain/booking/run-at";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import { aKiln, aQuestion, aSteamer, aTrolley, at, hours, zone } from "./sample-question";

/** The first run of the sample question unloads on 14 December 2026 and holds its kiln until 11:30. */
function asked(equipment: RunQuestion["equipment"], more: Partial<RunQuestion> = {}): RunQuestion {
  const question = aQuestion({ equipment, ...more });
  return { ...question, busy: inspectionSpans(equipment, zone) };
}
const kilnDue = (inspectionDue: string) => [{ ...aKiln("A"), inspectionDue }, aSteamer("S"), aTrolley("T")];
const first = (question: RunQuestion) => findRuns(question).kilns[0];

describe("an inspection that falls due", () => {
  test("may fall due on the day on which a run ends, not on the day before", () => {
    expect(first(asked(kilnDue("2026-12-14")))?.runs.map((run) => run.kilnTo.toString())).toEqual([at("2026-12-14T11:30").toString()]);
    const refused = first(asked(kilnDue("2026-12-13")));
    expect(refused?.runs).toEqual([]);
    expect(refused?.whyNot).toBe("Kiln A is not free for 6 days 16 hours at a stretch before Mon 1 Mar 2027, 00:00. Kiln A waits for the inspection that is due by Sun 13 Dec 2026.");
  });

  test("ends with the local day, whatever the clocks do", () => {
    expect(inspectedBy({ ...aKiln("A"), inspectionDue: "2027-03-28" }, zone)?.toString()).toBe("2027-03-28T22:00:00Z");
    expect(inspectedBy({ ...aKiln("A"), inspectionDue: "2027-03-27" }, zone)?.toString()).toBe("2027-03-27T23:00:00Z");
    expect(inspectedBy(aKiln("A"), zone)).toBeUndefined();
  });

  test("keeps a trolley from lifting, and another one takes its place", () => {
    const due = { ...aTrolley("T"), inspectionDue: "2026-12-10" };
    expect(first(asked([aKiln("A"), aSteamer("S"), due]))?.whyNot).toContain("Trolley T waits for the inspection that is due by Thu 10 Dec 2026.");
    expect(first(asked([aKiln("A"), aSteamer("S"), due, aTrolley("U")]))?.runs[0]).toMatchObject({ trolleyIdLoad: "T", trolleyIdUnload: "U" });
  });

  test("is named when a start is asked for that it forbids", () => {
    const outcome = runAt(asked(kilnDue("2026-12-10")), "A", at("2026-12-08T09:45"));
    expect(outcome.ok ? "" : outcome.problems[0].message).toBe("Kiln A is taken by the inspection that is due by Thu 10 Dec 2026 until further notice, and this run needs it before then.");
  });

  test("clashes with a run that stands already", () => {
    const equipment = kilnDue("2026-12-13");
    const [run] = first(aQuestion())?.runs ?? [];
    if (run === undefined) throw new Error("no run");
    const standing = {
      firingId: "f", title: "Seal", ownerMemberId: "ida", ownerName: "Ida Holm", status: "planned", kilnId: "A",
      bookings: run.bookings.map((booking, i) => ({ ...booking, bookingId: `${i}` })), heatingHours: 1, expectedEnd: null, plannedHours: 160,
    } as const;
    const state = { runs: [standing], asks: [], outages: inspectionOutages(equipment, zone), equipment, hours, powerLimitKw: null };
    expect(findClashes(state).map(({ kind, sentence }) => [kind, sentence.includes("the inspection that is due by Sun 13 Dec 2026")])).toEqual([["outage", true]]);
    expect(findClashes({ ...state, outages: inspectionOutages(kilnDue("2026-12-14"), zone) })).toEqual([]);
  });
});

describe("a kiln that needs an induction", () => {
  const notShown = { person: "Ida Holm", kilnIds: new Set(["A"]) };

  test("is not offered to who was never shown it, and says so; others are", () => {
    const found = findRuns(aQuestion({ equipment: [aKiln("A"), aKiln("B"), aSteamer("S"), aTrolley("T")], notShown }));
    expect(found.kilns.map(({ kilnId, runs, whyNot }) => [kilnId, runs.length, whyNot])).toEqual([
      ["A", 0, "Ida Holm has had no induction on Kiln A; once it was given, a manager records it under People."],
      ["B", 2, null],
    ]);
  });

  test("refuses a start that is asked for", () => {
    const outcome = runAt(aQuestion({ notShown }), "A", at("2026-12-07T14:45"));
    expect(outcome).toMatchObject({ ok: false, problems: [{ code: "no-induction", field: "kilnId" }] });
  });
});
