import { expect, test } from "vitest";
import { numberText, rateText } from "@/app/_components/number-text";
import { programLine, stageSpans } from "@/app/_components/program-line";

const stages = [
  { stage: "Climb", toC: 200, rateKPerH: 60, hours: 3, why: "a" },
  { stage: "Climb", toC: 850, rateKPerH: 100, hours: 6.5, why: "b" },
  { stage: "Flow", toC: 850, rateKPerH: 0, hours: 4, why: "c" },
  { stage: "Climb", toC: 860, rateKPerH: 10, hours: 1, why: "d" },
] as const;

test("each segment starts where the one before ended, the first at room temperature", () => {
  const line = programLine(stages);
  expect(line.map((one) => [one.fromH, one.toH, one.fromC, one.toC])).toEqual([
    [0, 3, 20, 200],
    [3, 9.5, 200, 850],
    [9.5, 13.5, 850, 850],
    [13.5, 14.5, 850, 860],
  ]);
});

test("only neighbouring segments of one stage are joined", () => {
  const spans = stageSpans(programLine(stages));
  expect(spans.map((span) => [span.stage, span.fromH, span.toH, span.fromC, span.toC])).toEqual([
    ["Climb", 0, 9.5, 20, 850],
    ["Flow", 9.5, 13.5, 850, 850],
    ["Climb", 13.5, 14.5, 850, 860],
  ]);
});

test("numbers are written with a real minus and never as minus nought", () => {
  expect(numberText(-1.44, 1)).toBe("−1.4");
  expect(numberText(-0.04, 1)).toBe("0.0");
  expect(numberText(12_345)).toBe("12\u202f345");
  expect(numberText(1234.5, 1)).toBe("1234.5");
  expect(numberText(Number.NaN)).toBe("–");
});

test("a rate says which way it goes", () => {
  expect([rateText(25), rateText(-1.25), rateText(0)]).toEqual(["+25 K/h", "−1.3 K/h", "hold"]);
});
