import { describe, expect, it } from "vitest";
import { Temporal } from "temporal-polyfill";
import type { Role } from "@/lib/domain/access/roles";
import { mayAnswer, type SheetMoment } from "@/lib/domain/safety/answer-check";
import type { CheckAnswer } from "@/lib/domain/safety/check-sheet";
import { sheetFor } from "@/lib/domain/safety/sheet-for";
import { planWith } from "./plan-builder";

const items = sheetFor(planWith(), { leadGlass: false });
const at = Temporal.Instant.from("2026-11-25T08:00:00Z");

function entry(overrides: Partial<CheckAnswer> = {}): CheckAnswer {
  return { code: "L1", kind: "tick", byMemberId: "member-1", at, ...overrides };
}

function codeOf(answer: CheckAnswer, more: { roles?: readonly Role[]; moment?: SheetMoment; answers?: readonly CheckAnswer[] } = {}): string {
  const sheet = { items, answers: more.answers ?? [], moment: more.moment ?? "before-start" };
  const outcome = mayAnswer(sheet, answer, more.roles ?? ["member"]);
  return outcome.ok ? "allowed" : outcome.problems[0].code;
}

describe("ticking", () => {
  it.each<[readonly Role[], string]>([[["member"], "allowed"], [["assistant"], "allowed"], [["manager"], "allowed"], [[], "not-allowed"]])(
    "by somebody with roles %j: %s",
    (roles, code) => {
      expect(codeOf(entry(), { roles })).toBe(code);
    },
  );

  it("twice is refused, with who ticked first", () => {
    const outcome = mayAnswer({ items, answers: [entry({ byMemberId: "member-2" })], moment: "before-start" }, entry(), ["member"]);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.problems[0]).toMatchObject({ code: "already-ticked", data: { byMemberId: "member-2" } });
  });

  it("is possible on an item the manager has overridden", () => {
    expect(codeOf(entry(), { answers: [entry({ kind: "override", reason: "service on Friday" })] })).toBe("allowed");
  });

  it("can be taken back only when there is a tick or an override", () => {
    expect(codeOf(entry({ kind: "untick" }))).toBe("not-ticked");
    expect(codeOf(entry({ kind: "untick" }), { answers: [entry()] })).toBe("allowed");
  });

  it("is refused for an item the sheet does not have", () => {
    expect(codeOf(entry({ code: "Z9" }))).toBe("unknown-check");
    expect(codeOf(entry({ code: "X2" }))).toBe("unknown-check");
  });
});

describe("overriding", () => {
  const override = (reason?: string) => entry({ kind: "override", ...(reason === undefined ? {} : { reason }) });

  it("is the manager's alone", () => {
    expect(codeOf(override("service on Friday"), { roles: ["member", "assistant"] })).toBe("not-allowed");
    expect(codeOf(override("service on Friday"), { roles: ["manager"] })).toBe("allowed");
  });

  it.each([[undefined, "reason-too-short"], ["", "reason-too-short"], ["123456789", "reason-too-short"], ["    12345     ", "reason-too-short"], ["1234567890", "allowed"]])(
    "with the reason %j: %s",
    (reason, code) => {
      expect(codeOf(override(reason), { roles: ["manager"] })).toBe(code);
    },
  );

  it("makes no sense for a reminder", () => {
    expect(codeOf({ ...override("no need for it today"), code: "W1" }, { roles: ["manager"] })).toBe("nothing-to-override");
  });

  it("cannot lift what the plan itself forbids", () => {
    const hot = sheetFor(planWith({ firing: { ...planWith().firing, peakC: 900 } }), { leadGlass: false });
    const outcome = mayAnswer({ items: hot, answers: [], moment: "before-start" }, { ...override("it will be fine"), code: "T1" }, ["manager"]);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.problems[0].code).toBe("check-forbids");
  });
});

describe("what may change when", () => {
  it.each<[string, SheetMoment, string]>([
    ["L1", "before-start", "allowed"], ["L1", "running", "already-started"], ["L1", "closed", "sheet-closed"],
    ["C1", "before-start", "not-started"], ["C1", "running", "allowed"], ["C1", "closed", "sheet-closed"],
    ["W1", "before-start", "allowed"], ["W1", "running", "allowed"], ["W1", "closed", "sheet-closed"],
  ])("%s while %s: %s", (code, moment, expected) => {
    expect(codeOf(entry({ code }), { moment })).toBe(expected);
  });

  it("a closed sheet refuses the manager too, for every kind of answer", () => {
    for (const kind of ["tick", "untick", "override"] as const) {
      expect(codeOf(entry({ kind, reason: "a long enough reason" }), { moment: "closed", roles: ["manager"], answers: [entry()] })).toBe("sheet-closed");
    }
  });
});
