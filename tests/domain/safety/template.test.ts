import { describe, expect, it } from "vitest";
import { PHASES, TEMPLATE, TEMPLATE_VERSION } from "@/lib/domain/safety/template";

const codesOf = (level: string) => TEMPLATE.filter((item) => item.level === level).map((item) => item.code);

describe("the check sheet template", () => {
  it("names each item once", () => {
    expect(new Set(TEMPLATE.map((item) => item.code)).size).toBe(TEMPLATE.length);
  });

  it("blocks the start on exactly these", () => {
    expect(codesOf("block")).toEqual(["W5", "S4", "L1", "L2", "L3", "L4", "L5", "L6", "T1", "T2", "T3", "T4", "T5", "T6"]);
  });

  it("blocks opening on exactly these", () => {
    expect(codesOf("open")).toEqual(["C1", "C2", "C3"]);
  });

  it("reminds of everything else", () => {
    expect(codesOf("remind")).toEqual([
      "W1", "W2", "W3", "W4", "S1", "S2", "S3", "S5", "L7", "L8", "L9", "M1", "M2", "M3", "D1", "D2", "X1", "X2", "X3",
    ]);
  });

  it("keeps items in the order of the work", () => {
    const order = PHASES.map(({ phase }) => phase);
    const places = TEMPLATE.map((item) => order.indexOf(item.phase));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places).not.toContain(-1);
  });

  it.each(TEMPLATE.map((item) => [item.code, item] as const))("%s says what, why and from where, and promises nothing", (_code, item) => {
    for (const words of [item.text, item.why]) expect(words).toMatch(/^[A-Z0-9].*\.$/);
    expect(item.source.length).toBeGreaterThan(5);
    expect(`${item.text} ${item.why}`).not.toMatch(/\bsafe(ly)?\b/i);
  });

  it("carries a version", () => {
    expect(TEMPLATE_VERSION).toMatch(/^\d{4}-\d{2}-\d{2}$/);
  });
});
