import { describe, expect, it } from "vitest";
import { levelCostWords, levelWords, signedText } from "@/app/_components/level-words";
import { historyFrame, nearestRow, stressAxis } from "@/app/_why/history-frame";
import { profileAlong, sectionFrame } from "@/app/_why/section-frame";

const row = (h: number) => ({ h, kilnC: 20, surfaceC: 20, coreC: 20, surfaceMPa: 0, centreMPa: 0, celsius: [], MPa: [] });
const SIZE = { width: 600, heatHeight: 200, stressHeight: 150, text: 12 };

describe("the frame of program and stress", () => {
  it.each([[0, 100], [40, 100]])("puts hours %d and %d at its sides, in proportion between", (fromH, toH) => {
    const { heat } = historyFrame(SIZE, [fromH, toH], 900, 1, [-1, 1]);
    expect([heat.x(fromH), heat.x(toH)]).toEqual([heat.left, heat.right]);
    expect(heat.x((fromH + toH) / 2)).toBeCloseTo((heat.left + heat.right) / 2, 0);
  });
  it("keeps stress below temperature, tension up, and every stress within", () => {
    const { heat, stress } = historyFrame(SIZE, [0, 10], 900, 1, [-0.8, 1.4]);
    expect(stress.top).toBeGreaterThan(heat.bottom);
    expect(stress.y(1.4)).toBeLessThan(stress.y(-0.8));
    for (const MPa of [1.4, -0.8, ...stress.marks]) {
      expect(stress.y(MPa)).toBeGreaterThanOrEqual(stress.top);
      expect(stress.y(MPa)).toBeLessThanOrEqual(stress.bottom);
    }
  });
  it.each([[-0.02, 0.05], [-1, 1.4], [-40, 12]])("marks stresses from %d to %d at a handful of round figures, zero among them", (least, most) => {
    const { marks } = stressAxis(0, 100, [least, most]);
    expect(marks).toContain(0);
    expect(marks.length).toBeGreaterThanOrEqual(3);
    expect(marks.length).toBeLessThanOrEqual(7);
  });
});

it("finds the row nearest to an hour, and the first and last beyond them", () => {
  const rows = [0, 1, 4].map(row);
  expect([-1, 0.4, 0.6, 2.4, 2.6, 9].map((h) => nearestRow(rows, h))).toEqual([0, 0, 1, 1, 2, 2]);
  expect(nearestRow([], 3)).toBe(0);
});

describe("the cut across a piece", () => {
  const ends = { middle: 10, surface: 4 };
  it("is the same on both sides of the middle where heat leaves all round", () => {
    const along = profileAlong([5, 15], [9, 6], { halfMm: 20, wallMm: 30, oneFace: false }, ends);
    expect(along.map(({ mm }) => mm)).toEqual([-20, -15, -5, 0, 5, 15, 20]);
    expect(along.map(({ value }) => value)).toEqual([4, 6, 9, 10, 9, 6, 4]);
  });
  it("goes from the side that rests to the open one where it leaves through one face", () => {
    const along = profileAlong([5, 15], [9, 6], { halfMm: 20, wallMm: 30, oneFace: true }, ends);
    expect(along.map(({ mm }) => mm)).toEqual([0, 5, 15, 20]);
  });
  it("draws wall and glass to one scale", () => {
    const { edges: [outer, from, to, end] } = sectionFrame(500, { halfMm: 20, wallMm: 30, oneFace: false }, [0, 1]);
    expect((from - outer) / (to - from)).toBeCloseTo(30 / 40, 2);
    expect(end - to).toBeCloseTo(from - outer, 1);
  });
});

describe("a stress level in words", () => {
  it("is told in MPa, and in nm/cm of the glass when that is known", () => {
    const careful = { permanentMPa: 0.4, passingMPa: 1.4 };
    expect(levelWords(careful)).toBe("At most 0.4 MPa for good, 1.4 MPa in passing");
    expect(levelWords(careful, { stressOpticBrewster: 2.5 })).toBe("At most 0.4 MPa (10 nm/cm) for good, 1.4 MPa (35 nm/cm) in passing");
  });
  it("says what it saves, costs, or neither", () => {
    expect(levelCostWords(100, 184)).toBe("saves 84 h (0.5 kiln-weeks) against careful");
    expect(levelCostWords(184, 100)).toBe("costs 84 h (0.5 kiln-weeks) more than careful");
    expect(levelCostWords(100.2, 100)).toBe("takes as long as careful");
  });
  it("gives a difference its sign", () => {
    expect([0.61, -1.2, 0.04].map((value) => signedText(value, 1))).toEqual(["+0.6", "\u22121.2", "±0.0"]);
  });
});
