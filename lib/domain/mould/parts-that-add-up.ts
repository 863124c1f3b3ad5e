/**
 * Amounts rounded for the scales so that the printed parts still add up to the printed total: each is
 * the difference of the rounded running sums, and so at most one step off its own rounding.
 *
 * @example partsThatAddUp([1.004, 1.004, 1.004], 0.01) // [1, 1.01, 1]
 */
export function partsThatAddUp(values: readonly number[], step: number): readonly number[] {
  let sum = 0;
  let before = 0;
  return values.map((value) => {
    sum += value;
    const steps = Math.round(sum / step);
    const part = (steps - before) * step;
    before = steps;
    return part;
  });
}
