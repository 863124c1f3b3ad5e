/** Numbers that look random and are the same for the same seed, on every machine. */
export type Random = {
  /** In [0, 1). */
  readonly next: () => number;
  /** A whole number in [0, count); count at least 1. */
  readonly below: (count: number) => number;
};

/**
 * The generator sfc32 (C. Doty-Humphrey, PractRand; from memory), its state filled from a seed by
 * twelve rounds. Any number is a seed; it is taken modulo 2^32.
 */
export function seededRandom(seed: number): Random {
  let a = 0x9e3779b9 | 0;
  let b = 0x243f6a88 | 0;
  let c = seed | 0;
  let counter = 1;
  const draw = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return sum >>> 0;
  };
  for (let round = 0; round < 12; round++) draw();
  return {
    next: () => draw() / 4294967296,
    below: (count) => Math.floor((draw() / 4294967296) * count),
  };
}

/** Puts the first `count` entries in random order, in place. */
export function shuffle(values: Int32Array | number[], count: number, random: Random): void {
  for (let i = count - 1; i > 0; i--) {
    const other = random.below(i + 1);
    const kept = values[i]!;
    values[i] = values[other]!;
    values[other] = kept;
  }
}
