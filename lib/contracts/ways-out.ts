import { z } from "zod";
import { readDay } from "@/lib/contracts/day";
import { paths } from "@/lib/contracts/paths";
import { AIMS, type Aim } from "@/lib/domain/settling/clash/weights";
import { REASON_MIN_CHARS, requestKeySchema } from "@/lib/contracts/runs";

const MOST_MOVES = 200;
/** Of a whole season. */
const MOST_SEASON_MOVES = 2_000;
const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** A run on a kiln on a day of the workshop's own calendar. */
export type AskedPlace = { readonly runId: string; readonly kilnId: string; readonly day: string };

/** What the manager asks of all ways out, as it stands in the page's address. */
export type AskedWays = {
  /** Runs that stay where they stand. */
  readonly keep: readonly string[];
  readonly hold: readonly AskedPlace[];
  readonly not: readonly AskedPlace[];
  /** Look longer, so that more is proven. */
  readonly thorough: boolean;
  /** A way that was accepted when the calendar had changed, for saying what is different now; null otherwise. */
  readonly tried: TriedWay | null;
  /** Figures of the ways seen before, by aim: "least-late.2.0" is 2 moved, 0 days late. */
  readonly was: readonly string[];
};

/** A way as it was: by what it looked at first, its cost in points, and its moves. */
export type TriedWay = { readonly aim: Aim; readonly cost: number; readonly moves: readonly AskedPlace[] };

export const NOTHING_ASKED: AskedWays = { keep: [], hold: [], not: [], thorough: false, tried: null, was: [] };

type Params = Readonly<Record<string, string | readonly string[] | undefined>>;

/** Reads the address; what is no run, kiln or day is left out and counted in `unread`. */
export function readAskedWays(params: Params): { readonly asked: AskedWays; readonly unread: number } {
  const all = (name: string): readonly string[] => [params[name] ?? []].flat().slice(0, MOST_MOVES);
  const keep = all("keep").filter((id) => ID.test(id));
  const places = (name: string): readonly AskedPlace[] => readPlaces(params, name);
  const [hold, not] = [places("hold"), places("not")];
  const unread = all("keep").length + all("hold").length + all("not").length - keep.length - hold.length - not.length;
  return { asked: { keep, hold, not, thorough: [params["thorough"]].flat().includes("yes"), tried: triedOf([params["tried"]].flat()[0], places("move")), was: all("was").filter((text) => /^[a-z-]+\.\d+\.\d+$/.test(text)) }, unread };
}

/** Every place under this name in an address, as far as they can be read. */
export function readPlaces(params: Params, name: string): AskedPlace[] {
  return [params[name] ?? []].flat().slice(0, MOST_MOVES).flatMap(placeOf);
}

function placeOf(text: string): AskedPlace[] {
  const [runId = "", kilnId = "", day = ""] = text.split("_");
  return ID.test(runId) && ID.test(kilnId) && readDay(day) !== null ? [{ runId, kilnId, day }] : [];
}

/** A way as an address carries it; null when it is none. */
export function triedOf(text: string | undefined, moves: readonly AskedPlace[]): TriedWay | null {
  const [, word, points] = /^([a-z-]+)_(\d{1,9}(?:\.\d{1,6})?)$/.exec(text ?? "") ?? [];
  const aim = AIMS.find((one) => one === word);
  return aim === undefined || points === undefined ? null : { aim, cost: Number(points), moves };
}

/** In an address: run, kiln and day. */
export function placeText({ runId, kilnId, day }: AskedPlace): string {
  return `${runId}_${kilnId}_${day}`;
}

export function waysOutHref({ keep, hold, not, thorough, tried, was }: AskedWays): string {
  const params = new URLSearchParams([
    ...keep.map((id) => ["keep", id]),
    ...hold.map((one) => ["hold", placeText(one)]),
    ...not.map((one) => ["not", placeText(one)]),
    ...was.map((text) => ["was", text]),
    ...(tried === null ? [] : [["tried", `${tried.aim}_${Math.round(tried.cost * 1e4) / 1e4}`], ...tried.moves.map((one) => ["move", placeText(one)])]),
    ...(thorough ? [["thorough", "yes"]] : []),
  ]);
  return params.size === 0 ? paths.waysOut : `${paths.waysOut}?${params.toString()}`;
}

/** What a settlement looked at first, or how else it came about. */
export const SETTLEMENT_KINDS = [...AIMS, "season", "by-hand"] as const;
export type SettlementKind = (typeof SETTLEMENT_KINDS)[number];

export const acceptSettlementSchema = z.strictObject({
  kind: z.enum(SETTLEMENT_KINDS),
  /** The re-plan of a season that it is, or comes from. */
  replanId: z.uuid().optional(),
  /** In the order in which they are made; a run is a firing, or an ask. */
  moves: z.array(z.strictObject({ runId: z.uuid(), kilnId: z.uuid(), kilnFrom: z.iso.datetime({ offset: true }) })).min(1).max(MOST_SEASON_MOVES),
  /** Of all that the settlement was made from. */
  fingerprint: z.string().regex(/^[0-9a-f]{64}$/),
  reason: z.string().trim().min(REASON_MIN_CHARS, `Give a reason of at least ${REASON_MIN_CHARS} characters; everybody who is moved reads it.`).max(500),
  requestKey: requestKeySchema,
});
