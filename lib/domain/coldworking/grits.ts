/**
 * FEPA grit sizes: F for loose and bonded grain (ISO 8486), P for coated abrasives (ISO 6344), each with
 * its median size ds50 in µm. From memory, except as published elsewhere: P400 about 35, P600 25.75 and
 * P2500 8.4 µm. The two scales agree to 220 and then part, so a number without its letter says nothing.
 */
export type GritScale = "F" | "P";
export type Grit = { readonly scale: GritScale; readonly number: number; readonly medianUm: number };

const F_SIZES: readonly (readonly [number, number])[] = [
  [60, 260], [80, 185], [100, 129], [120, 109], [150, 82], [180, 69], [220, 58], [230, 53], [240, 44.5], [280, 36.5],
  [320, 29.2], [360, 22.8], [400, 17.3], [500, 12.8], [600, 9.3], [800, 6.5], [1000, 4.5], [1200, 3.0],
];

const P_SIZES: readonly (readonly [number, number])[] = [
  [60, 269], [80, 201], [100, 162], [120, 125], [150, 100], [180, 82], [220, 68], [240, 58.5], [280, 52.2], [320, 46.2],
  [360, 40.5], [400, 35.0], [500, 30.2], [600, 25.8], [800, 21.8], [1000, 18.3], [1200, 15.3], [1500, 12.6], [2000, 10.3], [2500, 8.4],
];

/** All grits of a scale, from coarse to fine. */
export const GRITS: Readonly<Record<GritScale, readonly Grit[]>> = {
  F: F_SIZES.map(([number, medianUm]) => ({ scale: "F", number, medianUm })),
  P: P_SIZES.map(([number, medianUm]) => ({ scale: "P", number, medianUm })),
};

/** "F80", "P1200". */
export function gritName({ scale, number }: Pick<Grit, "scale" | "number">): string {
  return `${scale}${number}`;
}
