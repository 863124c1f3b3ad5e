import type { StageSpan } from "./program-line";

/** How large one drawing of the curve is, in its own units (CSS pixels at natural size). */
export type CurveSize = { readonly width: number; readonly plotHeight: number; readonly text: number };

export type CurveFrame = {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly topC: number;
  readonly x: (hours: number) => number;
  readonly y: (celsius: number) => number;
};

export type PlacedLabel = { readonly x: number; readonly tier: number; readonly width: number };

const TIER = 20;

/** Where the axes lie: to scale, the temperature axis ending at the next full hundred above the peak. */
export function curveFrame(size: CurveSize, hours: number, peakC: number, tiers: number): CurveFrame {
  const [left, right] = [46, size.width - 10];
  const top = tiers * TIER + 14;
  const bottom = top + size.plotHeight;
  const topC = Math.max(200, Math.ceil((peakC + 20) / 100) * 100);
  const span = hours > 0 ? hours : 1;
  return {
    width: size.width,
    height: bottom + 34,
    left,
    right,
    top,
    bottom,
    topC,
    x: (at) => round(left + ((right - left) * at) / span),
    y: (celsius) => round(bottom - ((bottom - top) * Math.max(0, celsius)) / topC),
  };
}

/**
 * Puts each stage's name above its stretch; where the stretch is too short for the name, on the lowest
 * tier on which it does not touch its neighbour.
 */
export function placeLabels(spans: readonly StageSpan[], size: CurveSize, x: (hours: number) => number): readonly PlacedLabel[] {
  const ends: number[] = [];
  return spans.map((span) => {
    const width = textWidth(span.stage, size.text) + 8;
    const middle = (x(span.fromH) + x(span.toH)) / 2;
    const start = Math.min(Math.max(middle - width / 2, 2), size.width - width - 2);
    let tier = 0;
    while ((ends[tier] ?? -Infinity) > start) tier += 1;
    ends[tier] = start + width + 4;
    return { x: round(start + width / 2), tier, width };
  });
}

/** The height of a label's middle above which its tier stands. */
export function tierY(frame: CurveFrame, tier: number): number {
  return frame.top - 16 - tier * TIER;
}

/** How many hours between labelled ticks, so that labels of that width do not touch. */
export function labelEveryDays(pxPerDay: number, labelWidth: number): number {
  return [1, 2, 7, 14, 28].find((days) => days * pxPerDay >= labelWidth) ?? 56;
}

/** A little more than the mean width of the family's letters. */
export function textWidth(text: string, size: number): number {
  return text.length * size * 0.56;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
