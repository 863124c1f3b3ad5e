import type { HistoryRow } from "@/lib/domain/stress/simulate";
import { ROOM_C } from "@/lib/domain/units";

/** One moment of a body: what is drawn over time, and between its middle and its surface, °C and MPa. */
export type BodyRow = Omit<HistoryRow, "tensionMPa"> & { readonly celsius: readonly number[]; readonly MPa: readonly number[] };

/** A drawing of a firing is no finer than this. */
const STEP_K = 5;
const STEP_OF_STRESS = 0.02;
const STEP_OF_TIME = 1 / 150;
/** Nearer to the room than this nothing happens any more, K. */
const COLD_K = 0.2;

/**
 * As many rows as a drawing shows: one for every few kelvin, every fiftieth of the largest stress and every
 * part of the time, and at every corner of the program; none of the long wait in the cold save the last.
 */
export function thinned(rows: readonly BodyRow[], cornersH: readonly number[]): readonly BodyRow[] {
  const last = rows.at(-1);
  if (last === undefined) return [];
  const coldAt = rows.findLastIndex((row) => Math.max(...row.celsius) > ROOM_C + COLD_K);
  const told = rows.slice(0, coldAt + 2);
  const endH = told.at(-1)?.h ?? 0;
  const largest = Math.max(...told.map(({ surfaceMPa, centreMPa }) => Math.max(Math.abs(surfaceMPa), Math.abs(centreMPa))));
  const isCorner = ({ h }: BodyRow): boolean => cornersH.some((corner) => Math.abs(corner - h) < 1e-6);
  const kept: BodyRow[] = [];
  for (const row of told) {
    const before = kept.at(-1);
    const moved = before === undefined
      || Math.max(Math.abs(row.surfaceC - before.surfaceC), Math.abs(row.coreC - before.coreC), Math.abs(row.kilnC - before.kilnC)) >= STEP_K
      || Math.max(Math.abs(row.surfaceMPa - before.surfaceMPa), Math.abs(row.centreMPa - before.centreMPa)) >= STEP_OF_STRESS * largest
      || row.h - before.h >= STEP_OF_TIME * endH;
    if (moved || isCorner(row) || row === told.at(-1)) kept.push(row);
  }
  return kept;
}
