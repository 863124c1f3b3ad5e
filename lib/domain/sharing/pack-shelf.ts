/** What one casting takes up of the shelf, seen from above, mm: mould or pot, whichever is wider. */
export type Footprint = { readonly id: string; readonly widthMm: number; readonly depthMm: number; readonly round: boolean };

/** Where it stands: its left and front edge from the kiln's inner left and front wall, mm; width and depth as it is turned. */
export type Place = Footprint & { readonly xMm: number; readonly yMm: number; readonly turned: boolean };

export type Shelf = {
  readonly widthMm: number;
  readonly depthMm: number;
  /** Kept free to walls and elements. */
  readonly wallMm: number;
  /** Kept free between two moulds. */
  readonly betweenMm: number;
};

/** `exact`: every way of standing was tried. Otherwise none was found among those that were, and there may be one. */
export type Packed = { readonly places: readonly Place[] | undefined; readonly exact: boolean };

/** Up to this many, all ways of standing are tried. */
export const TRIED_IN_FULL = 4;
const MM = 1e-6;

/**
 * Stands footprints on a shelf with their clearances, turned by a quarter where that helps, or finds that they
 * cannot. Any arrangement can be pushed left and forward until each stands against a wall or another, so only
 * such places are tried, in every order: all there are for rectangles. Round ones stand in the square around
 * them, except that two of anything stand in opposite corners, which is the furthest they can be apart.
 */
export function packShelf(shelf: Shelf, footprints: readonly Footprint[]): Packed {
  const sorted = [...footprints].sort((a, b) => b.widthMm * b.depthMm - a.widthMm * a.depthMm || (a.id < b.id ? -1 : 1));
  const inFull = sorted.length <= TRIED_IN_FULL;
  const squares = place(grown(shelf), [], sorted, inFull);
  const places = squares?.map((one) => ({ ...one, xMm: one.xMm + shelf.wallMm, yMm: one.yMm + shelf.wallMm })) ?? inCorners(shelf, sorted);
  const exact = places !== undefined || sorted.length <= 2 || (inFull && !sorted.some(({ round }) => round));
  return { places: places === undefined ? undefined : centred(shelf, places), exact };
}

/** Clearances between moulds as a margin at the right and back of each, so that the shelf may be as much larger. */
function grown({ widthMm, depthMm, wallMm, betweenMm }: Shelf): Shelf {
  return { widthMm: widthMm - 2 * wallMm + betweenMm, depthMm: depthMm - 2 * wallMm + betweenMm, wallMm: 0, betweenMm };
}

function place(room: Shelf, standing: readonly Place[], left: readonly Footprint[], inFull: boolean): readonly Place[] | undefined {
  const [first] = left;
  if (first === undefined) return standing;
  const xs = [0, ...standing.map((one) => one.xMm + one.widthMm + room.betweenMm)];
  const ys = [0, ...standing.map((one) => one.yMm + one.depthMm + room.betweenMm)];
  for (const next of inFull ? left : [first]) {
    const rest = left.filter((one) => one !== next);
    for (const turned of waysRound(next)) {
      for (const yMm of ys) {
        for (const xMm of xs) {
          const there: Place = { ...turned, xMm, yMm };
          if (!standsIn(room, there) || standing.some((one) => touches(room.betweenMm, one, there))) continue;
          const found = place(room, [...standing, there], rest, inFull);
          if (found !== undefined) return found;
        }
      }
    }
  }
  return undefined;
}

function waysRound(footprint: Footprint): readonly (Footprint & { readonly turned: boolean })[] {
  const straight = { ...footprint, turned: false };
  if (footprint.round || footprint.widthMm === footprint.depthMm) return [straight];
  return [straight, { ...footprint, widthMm: footprint.depthMm, depthMm: footprint.widthMm, turned: true }];
}

function standsIn({ widthMm, depthMm, betweenMm }: Shelf, one: Place): boolean {
  return one.xMm + one.widthMm + betweenMm <= widthMm + MM && one.yMm + one.depthMm + betweenMm <= depthMm + MM;
}

function touches(betweenMm: number, a: Place, b: Place): boolean {
  return a.xMm + a.widthMm + betweenMm > b.xMm + MM && b.xMm + b.widthMm + betweenMm > a.xMm + MM && a.yMm + a.depthMm + betweenMm > b.yMm + MM && b.yMm + b.depthMm + betweenMm > a.yMm + MM;
}

function inCorners(shelf: Shelf, [a, b, ...more]: readonly Footprint[]): readonly Place[] | undefined {
  if (a === undefined || b === undefined || more.length > 0) return undefined;
  const { widthMm, depthMm, wallMm } = shelf;
  for (const one of waysRound(a)) {
    for (const two of waysRound(b)) {
      const fits = [one, two].every((item) => item.widthMm + 2 * wallMm <= widthMm + MM && item.depthMm + 2 * wallMm <= depthMm + MM);
      const places: [Place, Place] = [{ ...one, xMm: wallMm, yMm: wallMm }, { ...two, xMm: widthMm - wallMm - two.widthMm, yMm: depthMm - wallMm - two.depthMm }];
      if (fits && apartMm(...places) >= shelf.betweenMm - MM) return places;
    }
  }
  return undefined;
}

/** The free space between two that stand, mm; 0 or less when they overlap. A rounded one is a disc across its square. */
export function apartMm(a: Place, b: Place): number {
  const core = (one: Place): { x0: number; x1: number; y0: number; y1: number; r: number } => {
    const r = one.round ? Math.min(one.widthMm, one.depthMm) / 2 : 0;
    return { x0: one.xMm + r, x1: one.xMm + one.widthMm - r, y0: one.yMm + r, y1: one.yMm + one.depthMm - r, r };
  };
  const [p, q] = [core(a), core(b)];
  const gapX = Math.max(q.x0 - p.x1, p.x0 - q.x1);
  const gapY = Math.max(q.y0 - p.y1, p.y0 - q.y1);
  const gap = gapX > 0 && gapY > 0 ? Math.hypot(gapX, gapY) : Math.max(gapX, gapY);
  return gap - p.r - q.r;
}

/** The whole group in the middle, where a kiln is most evenly warm. */
function centred({ widthMm, depthMm }: Shelf, places: readonly Place[]): readonly Place[] {
  const most = (of: (one: Place) => number): number => Math.max(...places.map(of));
  const least = (of: (one: Place) => number): number => Math.min(...places.map(of));
  const dx = (widthMm - most((one) => one.xMm + one.widthMm) - least(({ xMm }) => xMm)) / 2;
  const dy = (depthMm - most((one) => one.yMm + one.depthMm) - least(({ yMm }) => yMm)) / 2;
  return places.map((one) => ({ ...one, xMm: one.xMm + dx, yMm: one.yMm + dy }));
}
