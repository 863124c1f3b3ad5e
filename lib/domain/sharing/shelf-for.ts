import type { KilnLimits } from "@/lib/domain/booking/equipment";
import { refuse, ok, type Outcome, type Problem } from "@/lib/domain/refusal";
import { packShelf, TRIED_IN_FULL, type Footprint, type Place, type Shelf } from "./pack-shelf";
import type { LaidSharer } from "./sharer";

/** Between two moulds on one shelf, mm, so that heat gets round each (common practice, no source). */
export const BETWEEN_MOULDS_MM = 50;

export type ShelfLimits = Pick<KilnLimits, "insideMm" | "wallClearanceMm" | "headroomMm" | "shelfLoadKg">;

export type ShelfLoad = { readonly places: readonly Place[]; readonly loadKg: number; readonly heightMm: number };

export function footprintOf({ castingId, input, load }: Pick<LaidSharer, "castingId" | "input" | "load">): Footprint {
  const { shape } = load.solid;
  const upright = shape === "cylinder" || shape === "ball";
  return { id: castingId, widthMm: load.loadMm.width, depthMm: load.loadMm.depth, round: upright && (input.mould === undefined || load.loadMm.width === load.loadMm.depth) };
}

export function shelfOf({ insideMm: [widthMm, depthMm], wallClearanceMm }: ShelfLimits): Shelf {
  return { widthMm, depthMm, wallMm: wallClearanceMm, betweenMm: BETWEEN_MOULDS_MM };
}

/** Whether a kiln's shelf takes a whole load: side by side with clearances, under the roof with its pots, and by weight. */
export function shelfFor(sharers: readonly LaidSharer[], limits: ShelfLimits): Outcome<ShelfLoad> {
  const loadKg = sharers.reduce((sum, { load }) => sum + load.shelfKg, 0);
  const tallest = sharers.reduce((most, one) => (one.load.loadMm.height > most.load.loadMm.height ? one : most));
  const packed = packShelf(shelfOf(limits), sharers.map(footprintOf));
  const problems = [tooTall(tallest, limits), tooHeavy(sharers, loadKg, limits), packed.places === undefined ? noRoom(sharers, limits, packed.exact) : undefined].filter((problem) => problem !== undefined);
  const [first, ...rest] = problems;
  if (first !== undefined) return refuse(first, ...rest);
  return ok({ places: packed.places ?? [], loadKg, heightMm: tallest.load.loadMm.height });
}

function tooTall({ title, load }: LaidSharer, { insideMm, headroomMm }: ShelfLimits): Problem | undefined {
  const most = insideMm[2] - headroomMm;
  if (load.loadMm.height <= most) return undefined;
  const height = Math.ceil(load.loadMm.height);
  return { code: "too-tall", field: "castingId", value: height, allowed: `up to ${most} mm with its pot`, message: `${title} is ${height} mm tall with its pot; under the roof with ${headroomMm} mm kept free, ${most} mm is the most.` };
}

function tooHeavy(sharers: readonly LaidSharer[], loadKg: number, { shelfLoadKg }: ShelfLimits): Problem | undefined {
  if (loadKg <= shelfLoadKg) return undefined;
  const kg = (value: number): string => (Math.ceil(value * 10 - 1e-9) / 10).toString();
  const each = sharers.map(({ title, load }) => `${title} ${kg(load.shelfKg)} kg`).join(", ");
  return { code: "too-heavy", field: "castingId", value: Number(kg(loadKg)), allowed: `up to ${shelfLoadKg} kg`, message: `The shelf carries ${shelfLoadKg} kg; moulds, pots and glass together are ${kg(loadKg)} kg (${each}).` };
}

function noRoom(sharers: readonly LaidSharer[], limits: ShelfLimits, exact: boolean): Problem {
  const [width, depth] = limits.insideMm;
  const sizes = sharers.map((one) => `${one.title} ${Math.ceil(one.load.loadMm.width)} × ${Math.ceil(one.load.loadMm.depth)} mm`).join(", ");
  const tried = exact ? "there is no way to stand them" : sharers.length > TRIED_IN_FULL ? "no way to stand them was found, though not every one was tried" : "no way to stand them was found, with round moulds taken as the squares around them";
  return {
    code: "no-room", field: "castingId", allowed: `${limits.wallClearanceMm} mm to the walls and ${BETWEEN_MOULDS_MM} mm between moulds`,
    message: `On a shelf of ${width} × ${depth} mm, with ${limits.wallClearanceMm} mm kept free to the walls and ${BETWEEN_MOULDS_MM} mm between moulds, ${tried}: ${sizes}.`,
  };
}
