import { describe, expect, test } from "vitest";
import { findRuns } from "@/lib/domain/booking/find-time";
import { runAt } from "@/lib/domain/booking/run-at";
import { MAX_DAYS_FROM_STEAM_TO_LOAD } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { Problem } from "@/lib/domain/refusal";
import { aKiln, aPlan, aQuestion, aTrolley, at } from "./sample-question";

function refused(question: RunQuestion, wanted: string, kilnId = "A"): Problem {
  const outcome = runAt(question, kilnId, at(wanted));
  if (outcome.ok) throw new Error("was not refused");
  return outcome.problems[0];
}

describe("a run at a chosen start", () => {
  test("is the very run that finding time offers for that start", () => {
    const question = aQuestion({ perKiln: 4 });
    for (const run of findRuns(question).kilns[0]?.runs ?? []) {
      expect(runAt(question, "A", run.kilnFrom)).toEqual({ ok: true, value: run });
    }
  });

  test("may start later than the earliest, with the steam-out close before it", () => {
    const outcome = runAt(aQuestion(), "A", at("2027-01-12T11:00"));
    expect(outcome.ok && outcome.value.bookings[0]?.start.equals(at("2027-01-11T09:00"))).toBe(true);
  });

  test("refuses a kiln that is held, says by whom and until when, and the next start", () => {
    const busy = [{ equipmentId: "A", start: at("2026-12-10T10:00"), end: at("2026-12-18T11:30"), holder: "Seal by Ida Holm" }];
    const problem = refused(aQuestion({ busy }), "2026-12-08T11:00");
    expect(problem.code).toBe("kiln-taken");
    expect(problem.message).toBe(
      "Kiln A is taken by Seal by Ida Holm until Fri 18 Dec, 11:30, and this run needs it before then. The next start that would do is Fri 18 Dec, 12:15.",
    );
    expect(problem.data).toEqual({ equipmentId: "A", until: "2026-12-18T10:30:00Z", holders: ["Seal by Ida Holm"], nextKilnStart: "2026-12-18T11:15:00Z" });
  });

  test("refuses a start off the quarter hours and one before anything may start", () => {
    expect(refused(aQuestion(), "2026-12-08T11:05").message).toContain("the next one is Tue 8 Dec, 11:15");
    expect(refused(aQuestion(), "2026-12-07T08:30")).toMatchObject({ code: "too-early", allowed: "Mon 7 Dec, 08:45 or later" });
  });

  test("loading must end within staffed hours: at 17:00 yes, at 17:15 no", () => {
    expect(runAt(aQuestion(), "A", at("2026-12-08T17:00")).ok).toBe(true);
    expect(refused(aQuestion(), "2026-12-08T17:15").message).toBe(
      "Loading Kiln A takes 45 minutes, and Tue 8 Dec, 16:30 to 17:15 is not within staffed hours. The next start that would do is Wed 9 Dec, 09:45.",
    );
  });

  test("says when hands or trolleys are taken", () => {
    const span = { start: at("2026-12-08T10:00"), end: at("2026-12-08T12:00") };
    expect(refused(aQuestion({ lifts: [{ ...span, hands: 2 }] }), "2026-12-08T11:00").message).toContain(
      "Loading takes 2 people; Tue 8 Dec, 10:15 to 11:00 has 3 on duty, 2 of them busy with other lifts.",
    );
    const problem = refused(aQuestion({ busy: [{ equipmentId: "T", ...span, holder: "Bowl by Bo Lind" }] }), "2026-12-08T11:00");
    expect(problem.message).toContain("Trolley T by Bowl by Bo Lind until Tue 8 Dec, 12:00");
    expect(problem.data?.["until"]).toBe("2026-12-08T11:00:00Z");
  });

  test("says which kiln's heating is in the way", () => {
    const heating = [{ kilnId: "B", start: at("2026-12-08T00:00"), end: at("2026-12-09T12:00"), kw: 9 }];
    const problem = refused(aQuestion({ equipment: [...aQuestion().equipment, aKiln("B")], heating, powerLimitKw: 15 }), "2026-12-08T11:00");
    expect(problem.message).toContain("Kiln A with 9 kW would heat beside Kiln B above the electrician's limit of 15 kW until Wed 9 Dec, 12:00.");
  });

  test("says when no steam-out can come before", () => {
    const busy = [{ equipmentId: "S", start: at("2026-12-01T00:00"), end: at("2026-12-08T12:00") }];
    const problem = refused(aQuestion({ busy }), "2026-12-08T14:45");
    expect(problem.code).toBe("no-steam-out");
    expect(problem.message).toContain("steamed out by Tue 8 Dec, 12:00");
    expect(problem.data?.["nextKilnStart"]).toBe(at("2026-12-09T09:45").toString());
  });

  describe("with a steam-out that was agreed to", () => {
    const steamOf = (question: RunQuestion, wanted: string) => {
      const outcome = runAt(question, "A", at(wanted));
      return outcome.ok ? outcome.value.bookings.find(({ purpose }) => purpose === "steam-out")?.start.toString() : outcome.problems[0].code;
    };

    test("takes that one, although a later one would leave the mould less to wait", () => {
      const [early, late] = [at("2027-01-08T10:30"), at("2027-01-11T09:00")];
      expect(steamOf(aQuestion(), "2027-01-12T11:00")).toBe(late.toString());
      expect(steamOf(aQuestion({ steamFrom: early }), "2027-01-12T11:00")).toBe(early.toString());
    });

    test("takes no other where that one is taken, unstaffed, or leaves too little time before the loading", () => {
      const steamFrom = at("2027-01-08T10:30");
      const until = (end: string) => [{ equipmentId: "S", start: at("2027-01-08T08:00"), end: at(end) }];
      expect(steamOf(aQuestion({ steamFrom, busy: until("2027-01-08T10:30") }), "2027-01-12T11:00")).toBe(steamFrom.toString());
      expect(steamOf(aQuestion({ steamFrom, busy: until("2027-01-08T10:45") }), "2027-01-12T11:00")).toBe("no-steam-out");
      expect(steamOf(aQuestion({ steamFrom: at("2027-01-09T10:30") }), "2027-01-12T11:00")).toBe("no-steam-out");
      expect(steamOf(aQuestion({ steamFrom: at("2027-01-12T09:00") }), "2027-01-12T11:00")).toBe("no-steam-out");
    });

    test("waits no longer than a mould may", () => {
      const wanted = "2027-01-12T11:00";
      const oldest = at(wanted).subtract({ minutes: 45 }).subtract({ hours: 24 * MAX_DAYS_FROM_STEAM_TO_LOAD });
      const hours = { ...aQuestion().hours, weekly: ([1, 2, 3, 4, 5, 6, 7] as const).map((weekday) => ({ weekday, opensMin: 0, closesMin: 24 * 60, hands: 3 })) };
      expect(steamOf(aQuestion({ hours, steamFrom: oldest }), wanted)).toBe(oldest.toString());
      expect(steamOf(aQuestion({ hours, steamFrom: oldest.subtract({ minutes: 15 }) }), wanted)).toBe("no-steam-out");
    });
  });

  test("refuses what does not fit, what the workshop lacks, and an unknown kiln", () => {
    expect(refused(aQuestion({ plan: aPlan({ shelfKg: 81 }) }), "2026-12-08T11:00").code).toBe("does-not-fit");
    expect(refused(aQuestion({ equipment: [aKiln("A"), aTrolley("T")] }), "2026-12-08T11:00").code).toBe("lacking");
    expect(refused(aQuestion(), "2026-12-08T11:00", "Z").code).toBe("unknown-kiln");
  });

  test("refuses a firing that would not be free again by the horizon", () => {
    expect(refused(aQuestion({ horizon: at("2026-12-10T00:00") }), "2026-12-08T11:00").code).toBe("past-horizon");
  });
});
