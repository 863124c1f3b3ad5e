/** How firmly a run stands: asked for only, booked, or promised (its mould is steamed, or the date was given). */
export type Firmness = "ask" | "booked" | "promised";

/** A run that may be placed or moved. Days count from today, which is 0; loading days are of the workshop's own calendar. */
export type MovableRun = {
  readonly runId: string;
  /** "Ida's Seal": what people call it. */
  readonly title: string;
  readonly memberName: string;
  readonly firmness: Firmness;
  /** Where it stands now; null for an ask. */
  readonly standing: { readonly kilnId: string; readonly day: number } | null;
  /** Days in each kiln that takes it, from loading until the kiln may be unloaded. Kilns not named do not fit. */
  readonly daysByKiln: Readonly<Record<string, number>>;
  /** First day it can be loaded. */
  readonly earliest: number;
  /** Last day it may be loaded: a steamed mould waits only so long. Null: any. */
  readonly latest: number | null;
  /** Null when nobody needs it by a date. */
  readonly neededBy: number | null;
  /** Weight of a day late, against 1 for an ordinary casting. */
  readonly importance: number;
  /** True while the wax is still to be steamed out. */
  readonly steams: boolean;
  /** People to load and to unload it. */
  readonly hands: number;
  /** Days from loading on which the kiln counts with its full power; no more than it is held in any kiln. */
  readonly heatingDays: number;
};

export type GroundKiln = { readonly kilnId: string; readonly name: string; readonly powerKw: number };

/** Time a kiln cannot be had: a firing that has started, or an outage. Days, the last one not included. */
export type TakenKiln = { readonly kilnId: string; readonly from: number; readonly to: number; readonly holder: string };

/** Everything a settlement of a clash must respect, by day from today on. The lists by day are as long as the calendar. */
export type ClashGround = {
  readonly kilns: readonly GroundKiln[];
  readonly runs: readonly MovableRun[];
  readonly taken: readonly TakenKiln[];
  /** People on duty; 0 when nobody loads. */
  readonly handsOn: readonly number[];
  /** Loads and unloads that can be done, after those of started firings. */
  readonly liftsOn: readonly number[];
  readonly steamersOn: readonly number[];
  /** A steamed mould is loaded within so many days. */
  readonly steamWindow: number;
  /** Kilowatts left for kilns that heat, by day; null without a limit. */
  readonly powerLeftKw: readonly number[] | null;
};

/** What the manager wants held: a run on a kiln, on a day, or both. Without either it stays as it stands. */
export type Pin = { readonly runId: string; readonly kilnId?: string; readonly day?: number };
/** What the manager does not want: a run loaded on a kiln, or on days from `from` up to before `to`, or both. */
export type Forbid = { readonly runId: string; readonly kilnId?: string; readonly from?: number; readonly to?: number };
export type Wishes = { readonly pins: readonly Pin[]; readonly forbids: readonly Forbid[] };

export const NO_WISHES: Wishes = { pins: [], forbids: [] };
