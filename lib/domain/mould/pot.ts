/**
 * The terracotta flower pot that holds the charge above the mould: a frustum, lengths in m.
 */
export type Pot = {
  readonly litres: number;
  readonly topM: number;
  readonly bottomM: number;
  readonly heightM: number;
  readonly kg: number;
};

export type ChosenPot = {
  readonly pot: Pot;
  /** Glass that stays as a film in the pot. */
  readonly residueKg: number;
};

/** Top, bottom, height in m of common pots (common practice). */
const SIZES: readonly (readonly [number, number, number])[] = [
  [0.1, 0.065, 0.09],
  [0.15, 0.095, 0.14],
  [0.2, 0.13, 0.18],
  [0.25, 0.16, 0.23],
];

/** Mixed chunks and cullet: half of what is piled up is air (0.50–0.60, common practice). */
export const PACKING_FRACTION = 0.55;
/** A pot is filled to nine tenths (common practice). */
const FILL = 0.9;
/** Film left in the pot, m (common practice). */
const FILM_M = 0.001;
/** Wall of a terracotta pot, m, and its density (common practice). */
const POT_WALL_M = 0.008;
const TERRACOTTA_KG_M3 = 1800;

/** Frustum volume π·h·(D² + D·d + d²)/12. */
export function frustumVolume(topM: number, bottomM: number, heightM: number): number {
  return (Math.PI * heightM * (topM ** 2 + topM * bottomM + bottomM ** 2)) / 12;
}

/** What of a glass of the given density goes into a pot, kg, at a packing fraction, nine tenths full. */
export function potHolds(pot: Pot, densityKgM3: number, packing: number = PACKING_FRACTION): number {
  return (pot.litres / 1000) * densityKgM3 * packing * FILL;
}

/**
 * The smallest pot that holds what must flow out plus its own residue. Above the largest common pot the
 * size goes on growing in the same proportions.
 *
 * @example choosePot(5, 2500).pot.litres // 7.7
 */
export function choosePot(flowingKg: number, densityKgM3: number): ChosenPot {
  for (const [topM, bottomM, heightM] of SIZES) {
    const chosen = withResidue(potOf(topM, bottomM, heightM), densityKgM3);
    if (potHolds(chosen.pot, densityKgM3) >= flowingKg + chosen.residueKg) return chosen;
  }
  return scaledPot(flowingKg, densityKgM3);
}

function scaledPot(flowingKg: number, densityKgM3: number): ChosenPot {
  const [top, bottom, height] = SIZES[SIZES.length - 1] ?? [0, 0, 0];
  const unit = potOf(top, bottom, height);
  // The residue grows with the square, the content with the cube: a few rounds settle both.
  let scale = 1;
  for (let round = 0; round < 30; round += 1) {
    const needed = flowingKg + scale ** 2 * residueIn(unit, densityKgM3);
    scale = Math.max(1, Math.cbrt(needed / potHolds(unit, densityKgM3)));
  }
  return withResidue(potOf(top * scale, bottom * scale, height * scale), densityKgM3);
}

export function potOf(topM: number, bottomM: number, heightM: number): Pot {
  const clay = wettedArea(topM, bottomM, heightM) * POT_WALL_M;
  return { litres: 1000 * frustumVolume(topM, bottomM, heightM), topM, bottomM, heightM, kg: clay * TERRACOTTA_KG_M3 };
}

function withResidue(pot: Pot, densityKgM3: number): ChosenPot {
  return { pot, residueKg: residueIn(pot, densityKgM3) };
}

/** A film over bottom and side, and no less than 0.1 kg, the planning figure for any pot (common practice). */
function residueIn(pot: Pot, densityKgM3: number): number {
  return Math.max(0.1, wettedArea(pot.topM, pot.bottomM, pot.heightM) * FILM_M * densityKgM3);
}

function wettedArea(topM: number, bottomM: number, heightM: number): number {
  const slant = Math.hypot(heightM, (topM - bottomM) / 2);
  return (Math.PI / 4) * bottomM ** 2 + (Math.PI / 2) * (topM + bottomM) * slant;
}
