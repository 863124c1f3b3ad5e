import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { mayOpen, mayStart, stateOf, type CheckAnswer } from "@/lib/domain/safety/check-sheet";
import { sheetFor } from "@/lib/domain/safety/sheet-for";
import { planWith } from "./plan-builder";

const items = sheetFor(planWith(), { leadGlass: false });
const blocking = items.filter((item) => item.level === "block").map((item) => item.code);
const opening = items.filter((item) => item.level === "open").map((item) => item.code);

function answer(code: string, kind: CheckAnswer["kind"] = "tick", minute = 0): CheckAnswer {
  const at = Temporal.Instant.from("2026-11-25T08:00:00Z").add({ minutes: minute });
  return { code, kind, byMemberId: "member-1", at, ...(kind === "override" ? { reason: "service booked for Friday" } : {}) };
}

const statusOf = (code: string, answers: readonly CheckAnswer[]) => stateOf(items, answers).find(({ item }) => item.code === code)?.status;
const ticks = (codes: readonly string[]) => codes.map((code) => answer(code));

describe("where an item stands", () => {
  it("is unanswered at first, ticked after a tick, unanswered again when taken back", () => {
    expect(statusOf("L1", [])).toBe("unanswered");
    expect(statusOf("L1", [answer("L1")])).toBe("ticked");
    expect(statusOf("L1", [answer("L1"), answer("L1", "untick", 1)])).toBe("unanswered");
  });

  it("is overridden by the manager, and ticked when somebody ticks it after all", () => {
    expect(statusOf("L3", [answer("L3", "override")])).toBe("overridden");
    expect(statusOf("L3", [answer("L3", "override"), answer("L3", "tick", 1)])).toBe("ticked");
  });

  it("keeps who and when of the answer that counts", () => {
    const state = stateOf(items, [answer("L1"), answer("L1", "untick", 1), answer("L1", "tick", 2)]).find(({ item }) => item.code === "L1");
    expect(state?.answer?.byMemberId).toBe("member-1");
    expect(state?.answer?.at.toString()).toBe("2026-11-25T08:02:00Z");
  });

  it("depends only on the last answer to that item, whatever else was answered", () => {
    const kinds = fc.constantFrom<CheckAnswer["kind"]>("tick", "untick", "override");
    const list = fc.array(fc.tuple(fc.constantFrom("L1", "L2", "T1", "C1"), kinds));
    fc.assert(
      fc.property(list, (entries) => {
        const answers = entries.map(([code, kind], index) => answer(code, kind, index));
        const last = answers.filter((one) => one.code === "L1").at(-1)?.kind;
        const expected = last === "tick" ? "ticked" : last === "override" ? "overridden" : "unanswered";
        expect(statusOf("L1", answers)).toBe(expected);
      }),
    );
  });
});

describe("starting", () => {
  it("is refused with every blocking item that is not answered", () => {
    const outcome = mayStart(items, []);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.problems.map((problem) => problem.field)).toEqual(blocking);
  });

  it("is refused while a single one is missing, and says what it is", () => {
    const outcome = mayStart(items, ticks(blocking.filter((code) => code !== "T2")));
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.problems).toHaveLength(1);
    expect(outcome.problems[0]).toMatchObject({ code: "check-unanswered", field: "T2" });
    expect(outcome.problems[0].message).toContain("over-temperature cut-out");
  });

  it("is allowed once all are ticked, without any reminder or opening item", () => {
    expect(mayStart(items, ticks(blocking)).ok).toBe(true);
  });

  it("is allowed with an override in place of a tick", () => {
    const answers = [...ticks(blocking.filter((code) => code !== "L3")), answer("L3", "override")];
    expect(mayStart(items, answers).ok).toBe(true);
  });

  it("is refused again when one tick is taken back", () => {
    expect(mayStart(items, [...ticks(blocking), answer("L5", "untick", 9)]).ok).toBe(false);
  });

  it("is refused above what a plaster mould stands, whatever was ticked or overridden", () => {
    const hot = sheetFor(planWith({ firing: { ...planWith().firing, peakC: 900 } }), { leadGlass: false });
    const outcome = mayStart(hot, [...ticks(blocking), answer("T1", "override", 1)]);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.problems[0]).toMatchObject({ code: "check-forbids", field: "T1" });
  });

  it("is refused for a sheet without items", () => {
    expect(mayStart([], []).ok).toBe(false);
  });
});

describe("opening", () => {
  it("asks for its own items only", () => {
    expect(mayOpen(items, ticks(opening)).ok).toBe(true);
    const outcome = mayOpen(items, ticks(blocking));
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.problems.map((problem) => problem.field)).toEqual(["C1", "C2", "C3"]);
  });
});
