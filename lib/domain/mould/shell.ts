import { boxAround, curvatureOf, surfaceOf, volumeOf } from "@/lib/domain/shape/solid";
import type { Solid } from "@/lib/domain/shape/solid";

type Channel = { readonly diameterM: number; readonly lengthM: number };

/**
 * Volume, m³, of a shell of even thickness t that hugs a convex solid, by Steiner's formula
 * S·t + M·t² + 4/3·π·t³, with the feeder's channel taken out and its collar added. For a figure it is
 * the shell of the plain solid it is described by.
 *
 * @example shellVolume({ shape: "brick", lengthsM: [0.1, 0.1, 0.1] }, 0.03) // 2.76 litres
 */
export function shellVolume(solid: Solid, wallM: number, feeder?: Channel): number {
  const hugging = surfaceOf(solid) * wallM + curvatureOf(solid) * wallM ** 2 + (4 / 3) * Math.PI * wallM ** 3;
  return feeder === undefined ? hugging : hugging - pourHole(wallM, feeder) + collar(wallM, feeder);
}

/** Volume, m³, of a shell poured in a rectangular box that leaves t on every side of the solid. */
export function boxShellVolume(solid: Solid, wallM: number): number {
  const [a, b, c] = boxAround(solid);
  return (a + 2 * wallM) * (b + 2 * wallM) * (c + 2 * wallM) - volumeOf(solid);
}

/** Outside of the mould: the feeder stands on top and may rise above the wall. */
export function outsideOfMould(solid: Solid, wallM: number, feeder?: Channel): readonly [number, number, number] {
  const [a, b, c] = boxAround(solid);
  return [a + 2 * wallM, b + 2 * wallM, c + wallM + Math.max(wallM, feeder?.lengthM ?? 0)];
}

function pourHole(wallM: number, { diameterM, lengthM }: Channel): number {
  return (Math.PI / 4) * diameterM ** 2 * Math.min(wallM, lengthM);
}

function collar(wallM: number, { diameterM, lengthM }: Channel): number {
  const outside = diameterM + 2 * wallM;
  return (Math.PI / 4) * (outside ** 2 - diameterM ** 2) * Math.max(0, lengthM - wallM);
}
