import type { Feeder, Piece } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";

/** A cut through the middle of a load, in drawing units; y runs down. */
export type MouldSection = {
  readonly width: number;
  readonly height: number;
  readonly middle: number;
  readonly foot: number;
  readonly loadTop: number;
  readonly potFoot: number;
  readonly mouldTop: number;
  readonly pieceTop: number;
  readonly pieceFoot: number;
  readonly pieceHalf: number;
  readonly mouldHalf: number;
  readonly potHalf: number;
  readonly channelHalf: number;
  readonly bodyPath: string;
  readonly collarPath: string;
  readonly piecePath: string;
  readonly channelPath: string;
  readonly potPath: string;
  readonly propPath: string;
  readonly chunkPaths: readonly string[];
};

/** Room for the drawing itself and for the words beside it. */
const DRAWN = { width: 160, height: 240, words: 164, edge: 12 } as const;
/** Common pots are about two thirds as wide at the foot as at the lip. */
const POT_TAPER = 0.65;

type Plan = Pick<CastingPlan, "mould" | "loadMm" | "pot">;

export function mouldSection({ mould, loadMm, pot }: Plan, shape: Piece["shape"], wallMm: number, feeder?: Feeder): MouldSection {
  const scale = Math.min(DRAWN.width / Math.max(loadMm.width, 1), DRAWN.height / Math.max(loadMm.height, 1));
  const px = (mm: number) => Math.round(mm * scale * 10) / 10;
  const middle = DRAWN.edge + DRAWN.width / 2;
  const loadTop = DRAWN.edge;
  const foot = loadTop + px(loadMm.height);
  const wall = px(wallMm);
  const rise = px(Math.max(wallMm, feeder?.lengthMm ?? 0));
  const mouldTop = foot - px(mould.outsideMm[2]);
  const pieceFoot = foot - wall;
  const pieceTop = mouldTop + rise;
  const pieceHalf = px(mould.outsideMm[0]) / 2 - wall;
  const channelHalf = px(feeder?.diameterMm ?? 0) / 2;
  const potFoot = loadTop + px(pot.heightMm);
  const potHalf = px(pot.diameterMm) / 2;
  const round = shape === "ball";
  const upright = (half: number, top: number, bottom: number, radius: number) => box(middle, half, top, bottom, radius);
  return {
    width: DRAWN.edge * 2 + DRAWN.width + DRAWN.words,
    height: foot + DRAWN.edge,
    middle, foot, loadTop, potFoot, mouldTop, pieceTop, pieceFoot, pieceHalf, potHalf, channelHalf,
    mouldHalf: pieceHalf + wall,
    bodyPath: round ? disc(middle, (pieceTop + pieceFoot) / 2, pieceHalf + wall) : upright(pieceHalf + wall, pieceTop - wall, foot, wall),
    collarPath: feeder === undefined ? "" : upright(channelHalf + wall, mouldTop, pieceTop + 1, 0),
    piecePath: round ? disc(middle, (pieceTop + pieceFoot) / 2, pieceHalf) : upright(pieceHalf, pieceTop, pieceFoot, 0),
    channelPath: feeder === undefined ? "" : upright(channelHalf, mouldTop, pieceTop + 2, 0),
    potPath: pot.heightMm > 0 ? `M${middle - potHalf} ${loadTop}L${middle - potHalf * POT_TAPER} ${potFoot}H${middle - 3}M${middle + 3} ${potFoot}H${middle + potHalf * POT_TAPER}L${middle + potHalf} ${loadTop}` : "",
    propPath: propPath(middle, Math.max(pieceHalf + wall, potHalf * POT_TAPER) + 5, potFoot, foot),
    chunkPaths: chunks(middle, potHalf, loadTop, potFoot),
  };
}

/** The pot stands on props of its own, not on the mould, with a shelf that leaves the middle free. */
function propPath(middle: number, out: number, potFoot: number, foot: number): string {
  const shelf = potFoot + 2.5;
  return `M${middle - out} ${shelf}V${foot}M${middle + out} ${shelf}V${foot}M${middle - out - 4} ${shelf}H${middle - 5}M${middle + 5} ${shelf}H${middle + out + 4}`;
}

function box(middle: number, half: number, top: number, bottom: number, radius: number): string {
  const r = Math.min(radius, half, (bottom - top) / 2);
  const [left, right] = [middle - half, middle + half];
  if (!(r > 0)) return `M${left} ${top}H${right}V${bottom}H${left}Z`;
  return `M${left + r} ${top}H${right - r}A${r} ${r} 0 0 1 ${right} ${top + r}V${bottom - r}A${r} ${r} 0 0 1 ${right - r} ${bottom}H${left + r}A${r} ${r} 0 0 1 ${left} ${bottom - r}V${top + r}A${r} ${r} 0 0 1 ${left + r} ${top}Z`;
}

function disc(x: number, y: number, r: number): string {
  return `M${x - r} ${y}A${r} ${r} 0 0 1 ${x + r} ${y}A${r} ${r} 0 0 1 ${x - r} ${y}Z`;
}

/** Lumps of glass heaped in the pot, nine tenths of the way up. Only a sign that it is full, not a count. */
function chunks(middle: number, half: number, top: number, foot: number): readonly string[] {
  const height = foot - top;
  if (!(height > 8)) return [];
  const step = Math.max(height / 5, 6);
  const paths: string[] = [];
  for (let row = 0; row < 4; row += 1) {
    const y = foot - step * (row + 0.75);
    if (y - step / 2 < top + height * 0.06) break;
    const share = POT_TAPER + (1 - POT_TAPER) * ((foot - y) / height);
    const room = half * share - step * 0.55;
    const count = Math.max(1, Math.floor((room * 2) / step) + 1);
    for (let i = 0; i < count; i += 1) {
      const x = count === 1 ? middle : middle - room + (2 * room * i) / (count - 1);
      paths.push(lump(x, y, step * 0.42, row * 7 + i));
    }
  }
  return paths;
}

/** A five-cornered lump, turned by its place in the heap so that no two neighbours look alike. */
function lump(x: number, y: number, r: number, turn: number): string {
  const corners = [0, 1, 2, 3, 4].map((corner) => {
    const angle = ((corner + ((turn * 37) % 11) / 11) / 5) * 2 * Math.PI;
    const reach = r * (0.8 + (((turn + corner * 3) % 5) / 5) * 0.4);
    return `${(x + reach * Math.cos(angle)).toFixed(1)} ${(y + reach * Math.sin(angle)).toFixed(1)}`;
  });
  return `M${corners.join("L")}Z`;
}
