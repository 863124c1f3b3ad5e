import type { CurveFrame } from "@/app/_components/curve-layout";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";
import type { StressLimits } from "@/lib/domain/stress/stress-level";

/** How large one drawing of the two panels is, in CSS pixels at natural size. */
export type HistorySize = { readonly width: number; readonly heatHeight: number; readonly stressHeight: number; readonly text: number };

export type StressAxis = {
  readonly top: number;
  readonly bottom: number;
  readonly y: (MPa: number) => number;
  /** Round stresses to mark, MPa. */
  readonly marks: readonly number[];
};

/** Temperature above, stress below, over one time axis that may begin late. */
export type HistoryFrame = { readonly heat: CurveFrame; readonly stress: StressAxis; readonly fromH: number; readonly toH: number; readonly height: number };

const SIDE = 48;
const BETWEEN = 42;
const FOOT = 36;

export function historyFrame(size: HistorySize, [fromH, toH]: readonly [number, number], topC: number, tiers: number, stresses: readonly [least: number, most: number]): HistoryFrame {
  const [left, right] = [SIDE, size.width - SIDE];
  const top = tiers * 20 + 14;
  const bottom = top + size.heatHeight;
  const x = (h: number): number => round(left + ((right - left) * (h - fromH)) / Math.max(toH - fromH, 1e-9));
  const y = (celsius: number): number => round(bottom - (size.heatHeight * Math.max(0, celsius)) / topC);
  const stress = stressAxis(bottom + BETWEEN, size.stressHeight, stresses);
  const height = stress.bottom + FOOT;
  return { heat: { width: size.width, height, left, right, top, bottom, topC, x, y }, stress, fromH, toH, height };
}

/** A little room beyond the largest tension and compression, and about five marks at round stresses. */
export function stressAxis(top: number, height: number, [least, most]: readonly [number, number]): StressAxis {
  const room = 0.08 * Math.max(most - least, 0.01);
  const [from, to] = [least - room, most + room];
  const step = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20].find((one) => (to - from) / one <= 6) ?? 50;
  const marks: number[] = [];
  for (let i = Math.ceil(from / step); i * step <= to; i += 1) marks.push(Number((i * step).toFixed(2)));
  return { top, bottom: top + height, marks, y: (MPa) => round(top + (height * (to - MPa)) / (to - from)) };
}

/** The hottest shown, taken up to the next full hundred. */
export function topCOf(hottestC: number): number {
  return Math.max(200, Math.ceil((hottestC + 20) / 100) * 100);
}

/** Least and most stress that must find room, the limits among them. */
export function stressesOf({ rows, glassFromH }: PlanHistory, { permanentMPa, passingMPa }: StressLimits, [fromH, toH]: readonly [number, number]): readonly [number, number] {
  let [least, most] = [-permanentMPa, Math.max(permanentMPa, passingMPa)];
  for (const { h, surfaceMPa, centreMPa } of rows) {
    if (h < Math.max(fromH, glassFromH) || h > toH) continue;
    least = Math.min(least, surfaceMPa, centreMPa);
    most = Math.max(most, surfaceMPa, centreMPa);
  }
  return [least, most];
}

/** The row nearest to an hour, by its place; 0 without rows. */
export function nearestRow(rows: PlanHistory["rows"], h: number): number {
  const after = rows.findIndex((row) => row.h >= h);
  if (after < 0) return Math.max(0, rows.length - 1);
  const [before, next] = [rows[after - 1], rows[after]];
  return before !== undefined && next !== undefined && h - before.h < next.h - h ? after - 1 : after;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
