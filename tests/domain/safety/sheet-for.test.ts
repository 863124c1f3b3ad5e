import { describe, expect, it } from "vitest";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { sheetFor } from "@/lib/domain/safety/sheet-for";
import { TEMPLATE } from "@/lib/domain/safety/template";
import { planWith } from "./plan-builder";

const find = (plan: CastingPlan, code: string, leadGlass = false) =>
  sheetFor(plan, { leadGlass }).find((item) => item.code === code);

const peakAt = (peakC: number) => planWith({ firing: { ...planWith().firing, peakC } });

describe("the check sheet of one firing", () => {
  it("holds every item of the template for lead glass in a mould", () => {
    expect(sheetFor(planWith(), { leadGlass: true }).map((item) => item.code)).toEqual(TEMPLATE.map((item) => item.code));
  });

  it("speaks of lead only for lead glass", () => {
    expect(find(planWith(), "X2", true)).toBeDefined();
    expect(find(planWith(), "X2", false)).toBeUndefined();
  });

  it("blocks on the lift only when a lift is red", () => {
    expect(find(planWith(), "L7")?.level).toBe("remind");
    const [first, ...rest] = planWith().lifts;
    if (first === undefined) throw new Error("the plan has no lift");
    expect(find(planWith({ lifts: [...rest, { ...first, flag: "red" }] }), "L7")?.level).toBe("block");
  });

  it("leaves out what concerns a mould when there is none", () => {
    const bare = planWith({ mould: { ...planWith().mould, wetKg: 0, dryKg: 0, firedKg: 0, plasterKg: 0 } });
    const codes = sheetFor(bare, { leadGlass: false }).map((item) => item.code);
    for (const code of ["W5", "S4", "L4", "L6", "L9", "D1"]) expect(codes).not.toContain(code);
    for (const code of ["L1", "L5", "T1", "T6", "C1"]) expect(codes).toContain(code);
  });

  it.each([[880, false], [880.6, true], [920, true]])("a plaster mould at %s °C is forbidden: %s", (peakC, forbidden) => {
    expect(find(peakAt(peakC), "T1")?.forbids !== undefined).toBe(forbidden);
  });

  it("does not forbid the same heat for bare glass", () => {
    const bare = { ...peakAt(920), mould: { ...planWith().mould, wetKg: 0, plasterKg: 0 } };
    expect(find(bare, "T1")?.forbids).toBeUndefined();
  });

  it("puts the firing's own numbers beside the items that need them", () => {
    expect(find(planWith(), "S4")?.detail).toContain("2.94 kg");
    expect(find(planWith(), "L4")?.detail).toContain("11.2 kg");
    expect(find(planWith(), "L5")?.detail).toContain("25.0 kg");
    expect(find(planWith(), "L7")?.detail).toContain("10.7 kg: 2 people and a trolley");
    expect(find(planWith(), "T1")?.detail).toContain("840 °C");
    expect(find(planWith(), "C2")?.detail).toContain("12.5 hours");
    expect(find(planWith(), "C3")?.detail).toContain("13.3 kg");
    expect(find(planWith(), "L1")?.detail).toBeUndefined();
  });
});
