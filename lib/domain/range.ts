import type { Problem } from "./refusal";

/**
 * A number outside its range, as a problem that names field, value and range; undefined when it is
 * inside. Both ends are allowed. NaN and infinities are outside.
 *
 * @example outOfRange("mould.wallMm", 0, 15, 150, "mm")?.message // "mould.wallMm is 0 mm; it must be 15 to 150 mm."
 */
export function outOfRange(field: string, value: number, least: number, most: number, unit = ""): Problem | undefined {
  if (value >= least && value <= most) return undefined;
  const tail = unit === "" ? "" : ` ${unit}`;
  const allowed = `${least} to ${most}${tail}`;
  return { code: "out-of-range", field, value, allowed, message: `${field} is ${value}${tail}; it must be ${allowed}.` };
}
