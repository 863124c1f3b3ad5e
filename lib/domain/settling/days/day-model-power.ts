import type { DayTables } from "@/lib/domain/settling/days/day-tables";
import type { ModelBuilder } from "@/lib/domain/settling/days/model-builder";

/** By calendar day, the row of what kilns that heat may draw; −1 where all of them together may. */
export function powerRows(builder: ModelBuilder, { problem }: DayTables): Int32Array {
  const all = problem.powerKw.reduce((sum, kw) => sum + kw, 0);
  return Int32Array.from({ length: problem.horizon }, (_, day) => {
    const left = problem.powerLeftKw?.[day] ?? Infinity;
    return left < all ? builder.row(-Infinity, Math.max(0, left)) : -1;
  });
}

/** What a kiln of a class draws; kilns of a class are alike in it. */
export function kilowattsOf({ problem, classOf }: DayTables, cls: number): number {
  return problem.powerKw[classOf.indexOf(cls)]!;
}
