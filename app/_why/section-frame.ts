import type { BodyRow } from "@/lib/domain/firing/history-rows";
import type { PlanHistory } from "@/lib/domain/firing/plan-history";

export type Across = "heat" | "stress";

/** A cut straight through the piece: its wall, glass and wall side by side, to scale; the figure over it. Drawing units; y runs down. */
export type SectionFrame = {
  readonly width: number;
  readonly height: number;
  /** Outside of the wall, glass, glass, outside of the wall; where heat leaves on one face only, the first is the glass itself. */
  readonly edges: readonly [number, number, number, number];
  readonly strip: { readonly top: number; readonly bottom: number };
  readonly plot: { readonly top: number; readonly bottom: number };
  readonly x: (mm: number) => number;
  readonly y: (value: number) => number;
  readonly marks: readonly number[];
};

export type Cut = { readonly halfMm: number; readonly wallMm: number; readonly oneFace: boolean };

const SIDE = 50;
const STRIP = 56;
const PLOT = 170;

export function sectionFrame(width: number, { halfMm, wallMm, oneFace }: Cut, [least, most]: readonly [number, number]): SectionFrame {
  const [fromMm, toMm] = oneFace ? [0, halfMm + wallMm] : [-halfMm - wallMm, halfMm + wallMm];
  const x = (mm: number): number => round(SIDE + ((width - 2 * SIDE) * (mm - fromMm)) / (toMm - fromMm));
  const plot = { top: 22, bottom: 22 + PLOT };
  const strip = { top: plot.bottom + 12, bottom: plot.bottom + 12 + STRIP };
  const step = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200].find((one) => (most - least) / one <= 5) ?? 500;
  const marks: number[] = [];
  for (let i = Math.ceil(least / step - 1e-9); i * step <= most + 1e-9; i += 1) marks.push(Number((i * step).toFixed(2)));
  return {
    width, height: strip.bottom + 34, strip, plot, x, marks,
    edges: [x(fromMm), x(oneFace ? 0 : -halfMm), x(halfMm), x(toMm)],
    y: (value) => round(plot.bottom - (PLOT * (value - least)) / (most - least)),
  };
}

/** A least span, so that level glass is drawn level. */
const LEAST_SPAN_K = 20;

/** From the coolest to the warmest of this moment, kiln included, in whole tens. */
export function heatRange({ kilnC, celsius }: BodyRow): readonly [number, number] {
  const [least, most] = [Math.min(kilnC, ...celsius), Math.max(kilnC, ...celsius)];
  const middle = (least + most) / 2;
  const half = Math.max(LEAST_SPAN_K, most - least) / 2 + 2;
  return [Math.floor((middle - half) / 5) * 5, Math.ceil((middle + half) / 5) * 5];
}

/** The same for all moments of the way down, so that one can be held against another; wider where bare glass is pulled more while it is heated. */
export function stressRange({ rows, downFromH }: PlanHistory, row: BodyRow): readonly [number, number] {
  let most = Math.max(0.01, ...row.MPa.map(Math.abs));
  for (const { h, MPa } of rows) if (h >= downFromH && row.h >= downFromH) most = Math.max(most, ...MPa.map(Math.abs));
  return [-1.1 * most, 1.1 * most];
}

export type Along = { readonly mm: number; readonly value: number };

/** The profile from side to side; where heat leaves on one face only, from the side that rests to the open one. */
export function profileAlong(atMm: readonly number[], values: readonly number[], { halfMm, oneFace }: Cut, ends: { readonly middle: number; readonly surface: number }): readonly Along[] {
  const out = [{ mm: 0, value: ends.middle }, ...values.map((value, i) => ({ mm: atMm[i] ?? 0, value })), { mm: halfMm, value: ends.surface }];
  return oneFace ? out : [...out.slice(1).toReversed().map(({ mm, value }) => ({ mm: -mm, value })), ...out];
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
