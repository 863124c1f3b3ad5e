/**
 * Modified Bessel functions of the first kind for x ≥ 0, as the two quotients that heat flow in a short
 * cylinder needs. Power series to x = 40, asymptotic series above (Abramowitz & Stegun 9.6.10, 9.7.1);
 * relative error below 1e-10.
 */
const SERIES_LIMIT = 40;

/** 1 / I0(x); 0 once it is too small to hold. */
export function inverseI0(x: number): number {
  if (x > SERIES_LIMIT) return (Math.sqrt(2 * Math.PI * x) * Math.exp(-x)) / asymptotic(x, 0);
  return 1 / powerSeries(x, 0);
}

/** I1(x) / I0(x): rises from 0 to 1. */
export function ratioI1I0(x: number): number {
  if (x > SERIES_LIMIT) return asymptotic(x, 4) / asymptotic(x, 0);
  return powerSeries(x, 1) / powerSeries(x, 0);
}

function powerSeries(x: number, order: 0 | 1): number {
  const quarter = (x * x) / 4;
  let term = order === 0 ? 1 : x / 2;
  let sum = term;
  for (let k = 1; term > sum * 1e-16; k += 1) {
    term *= quarter / (k * (k + order));
    sum += term;
  }
  return sum;
}

/** The bracket of A&S 9.7.1; mu is 4·order². */
function asymptotic(x: number, mu: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; k <= 8; k += 1) {
    term *= -(mu - (2 * k - 1) ** 2) / (k * 8 * x);
    sum += term;
  }
  return sum;
}
