import { inverseI0, ratioI1I0 } from "./bessel";

/**
 * Temperature inside a solid whose whole surface cools at one steady rate q: T − Ts = (q/κ)·u with
 * −∇²u = 1 inside and u = 0 on the surface. All figures are m², from exact series (the torsion problem
 * of Saint-Venant extended to three dimensions; Carslaw & Jaeger, Conduction of Heat in Solids).
 */
export type Conduction = {
  /** Largest u: core over surface. */
  readonly maxM2: number;
  /** Mean of u over the volume. */
  readonly meanM2: number;
};

const ODD = (n: number): number => 2 * n + 1;
const SIGN = (n: number): number => (n % 2 === 0 ? 1 : -1);

/** Infinite slab of full thickness t: t²/8 and t²/12. */
export function slabConduction(thicknessM: number): Conduction {
  return { maxM2: thicknessM ** 2 / 8, meanM2: thicknessM ** 2 / 12 };
}

/** Ball of diameter D: D²/24 and D²/60. */
export function ballConduction(diameterM: number): Conduction {
  return { maxM2: diameterM ** 2 / 24, meanM2: diameterM ** 2 / 60 };
}

/**
 * Brick of three full lengths in any order. The bar without ends is summed in closed terms that die
 * away exponentially; the ends are a double series of the same kind.
 *
 * @example brickConduction([0.1, 0.1, 0.1]) // max 0.2249·a², mean 0.0807·a² with a = 0.05
 */
export function brickConduction(lengthsM: readonly [number, number, number]): Conduction {
  const [a, b, c] = lengthsM.map((length) => length / 2).sort((x, y) => x - y) as [number, number, number];
  const bar = barConduction(a, b);
  const ends = endsOfBar(a, b, c);
  return { maxM2: bar.maxM2 - ends.maxM2, meanM2: bar.meanM2 - ends.meanM2 };
}

const BAR_TERMS = 40;

function barConduction(a: number, b: number): Conduction {
  let centre = 0;
  let mean = 0;
  for (let n = 0; n < BAR_TERMS; n += 1) {
    const odd = ODD(n);
    const reach = (odd * Math.PI * b) / (2 * a);
    centre += SIGN(n) / (odd ** 3 * Math.cosh(reach));
    mean += Math.tanh(reach) / odd ** 5;
  }
  return {
    maxM2: a ** 2 * (1 / 2 - (16 / Math.PI ** 3) * centre),
    meanM2: (a ** 2 / 3) * (1 - (192 / Math.PI ** 5) * (a / b) * mean),
  };
}

const END_TERMS = 40;

function endsOfBar(a: number, b: number, c: number): Conduction {
  let centre = 0;
  let mean = 0;
  for (let m = 0; m < END_TERMS; m += 1) {
    for (let n = 0; n < END_TERMS; n += 1) {
      const product = ODD(m) * ODD(n);
      const lambda = (Math.PI / 2) * Math.hypot(ODD(m) / a, ODD(n) / b);
      centre += SIGN(m + n) / (product * lambda ** 2 * Math.cosh(lambda * c));
      mean += Math.tanh(lambda * c) / (product ** 2 * lambda ** 3 * c);
    }
  }
  return { maxM2: (16 / Math.PI ** 2) * centre, meanM2: (64 / Math.PI ** 4) * mean };
}

/** Beyond ten radii of half height the ends no longer reach the middle (their share is below 1e-10). */
const LONG = 10;
/** 4·Σ 1/j⁵ over the zeros j of J0: what the two ends of a long cylinder take off the mean, per R/h. */
const END_SHARE = 0.050_63;
const CYLINDER_TERMS = 400;

/**
 * Cylinder of diameter D and height H.
 *
 * @example cylinderConduction(0.1, 0.1) // max 0.2007·R², mean 0.0752·R² with R = 0.05
 */
export function cylinderConduction(diameterM: number, heightM: number): Conduction {
  const R = diameterM / 2;
  const h = heightM / 2;
  if (h > LONG * R) return { maxM2: R ** 2 / 4, meanM2: R ** 2 * (1 / 8 - (END_SHARE * R) / h) };
  let centre = 0;
  let mean = 0;
  for (let n = 0; n < CYLINDER_TERMS; n += 1) {
    const x = (ODD(n) * Math.PI * R) / (2 * h);
    centre += (SIGN(n) * inverseI0(x)) / ODD(n) ** 3;
    mean += (2 * ratioI1I0(x)) / x / ODD(n) ** 4;
  }
  return {
    maxM2: h ** 2 * (1 / 2 - (16 / Math.PI ** 3) * centre),
    meanM2: h ** 2 * (1 / 3 - (32 / Math.PI ** 4) * mean),
  };
}
