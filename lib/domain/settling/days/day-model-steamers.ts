import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import type { ModelBuilder } from "@/lib/domain/settling/days/model-builder";

/**
 * Steamers as a flow from day to day: a day steams up to its places, a load takes one mould from what
 * waits, and what still waits after the loads of day s was steamed late enough to serve day s + 1 too.
 * Windows move on with the days, so giving out the oldest first loses nothing, and whole numbers of
 * loads always leave whole numbers of moulds.
 *
 * Opens a row for each day (what waits after loading), to which a load steamed for it adds 1, and a
 * row for each day on what may still wait. Gives the number of the first.
 */
export function steamerRows(builder: ModelBuilder, { span }: DayTables): number {
  const first = builder.row(0, 0);
  for (let s = 1; s < span; s++) builder.row(0, 0);
  for (let s = 0; s < span; s++) builder.row(-Infinity, 0);
  return first;
}

/** The amounts of the flow: what is steamed on a day, and what waits after its loads. */
export function steamerColumns(builder: ModelBuilder, { span, steams, steamFrom }: DayTables, row: number): void {
  const mayWait = row + span;
  for (let day = 0; day < span; day++) {
    if (day + 1 < span) builder.entry(row + day + 1, -1);
    // Steamed on this day, a mould may still wait after the loads of s when it serves a load of s + 1.
    for (let s = day + 1; s < span && (s + 1 === span || steamFrom[s + 1]! <= day); s++) builder.entry(mayWait + s, -1);
    builder.endAmount(0, steams[day]!);
  }
  for (let day = 0; day < span; day++) {
    builder.entry(row + day);
    if (day + 1 < span) builder.entry(row + day + 1, -1);
    builder.entry(mayWait + day);
    builder.endAmount(0, Infinity);
  }
}
