import { kelvinPerDecade, LOG_STRAIN, temperatureAt } from "@/lib/domain/glass/viscosity";
import { descend } from "@/lib/domain/numeric/descend";
import type { CoolingRamp, CoolingTask, WayDown } from "./cooling-task";
import { slowCool } from "./quasi-steady";
import { comeToRest, copySlab, evenSlab, holdUntil, lead, nothingSeen, type SlabState } from "./slab-at-depths";
import { standInFor } from "./stand-in";
import type { StressLimits } from "./stress-level";

/**
 * Down to this viscosity, as log10 of Pa·s, glass that falls as fast as a kiln can loses its tension in seconds
 * and never holds 1 MPa; what it holds goes with the viscosity, so a stricter limit is met at a softer point.
 */
const LOG_SOFT = 10.7;
/** The soak lies between these. */
const LOG_HOTTEST_SOAK = 11.5;
const COLDEST_SOAK_BELOW_STRAIN_K = 40;
/** How near the limits the rates are brought: a 300th is less than any controller keeps to. */
const NEAR = 0.003;
const MOST_ROUNDS = 6;
/** Nothing is levelled for longer than this many hours (a month). */
const MOST_SOAK_HOURS = 720;
/** Slow ramps before the last one, as in the published tables; another would save less than a hundredth. */
const SLOW_RAMPS = 2;
/** A decade of viscosity at the strain point of the glass from which the starting figures below were read, K. */
const REFERENCE_DECADE_K = 19;
/** Soaks tried, tens of kelvin below the strain point. */
const SOAKS_TRIED = [-2.4, -1.8, -1.2, -0.6, 0, 0.5, 1, 1.5];
/** Ramps meet, and last ones end, no colder than this, °C. */
const COLDEST_CORNER_C = 42;

/** What a candidate is brought to, MPa: permanent tension, passing tension in ramps, passing tension in drop and soak. */
export type Bounds = { readonly permanentMPa: number; readonly passingMPa: number; readonly dropMPa: number };

/** The tension that is left is also there while cooling, so the stricter limit holds for it. */
export function boundsOf({ permanentMPa, passingMPa }: StressLimits): Bounds {
  return { permanentMPa: Math.min(permanentMPa, passingMPa), passingMPa, dropMPa: passingMPa };
}

/** What is brought to the limits: the first slow rate and the last one, K/h, and the end of the drop. */
type Rates = { readonly slow: number; readonly last: number; readonly drop: number };
type Tried = WayDown & { readonly hours: number };

/**
 * Where the ways down of one task are tried. A candidate is: where the soak holds and the ramps meet, in tens of
 * kelvin below the strain point, and how many times (as a logarithm) the second ramp is faster than the first.
 */
export class CoolingSearch {
  private readonly levelK: number;
  private readonly above: SlabState;
  private readonly soaked: SlabState;
  private readonly work: SlabState;
  private readonly strainC: number;
  private readonly softC: number;
  private readonly decade: number;
  private readonly bounds: Bounds;
  private rates: Rates;

  constructor(private readonly task: CoolingTask) {
    const { glass, body, limits, fromC, fastestKPerH, dropKPerH } = task;
    this.bounds = boundsOf(limits);
    const steady = slowCool(glass, body, this.bounds, fastestKPerH);
    this.strainC = temperatureAt(glass.viscosity, LOG_STRAIN);
    this.softC = Math.min(fromC, temperatureAt(glass.viscosity, LOG_SOFT + Math.min(0, Math.log10(limits.passingMPa))));
    this.decade = kelvinPerDecade(glass.viscosity, this.strainC) / REFERENCE_DECADE_K;
    this.rates = { slow: steady.freezing.rateKPerH, last: steady.rundownRateKPerH, drop: dropKPerH };
    this.levelK = steady.coreSurfaceK / 2;
    const as = standInFor(body);
    this.above = evenSlab(glass, as, fromC);
    this.soaked = evenSlab(glass, as, fromC);
    this.work = evenSlab(glass, as, fromC);
    lead(this.above, this.softC, Math.max(1e-3, (fromC - this.softC) / dropKPerH), nothingSeen());
  }

  /**
   * The best candidate found. Over the soak's temperature the hours have two hollows, a warm short soak and a
   * cool long one, so all temperatures are tried once the rest is roughly known.
   */
  shortest(): readonly number[] {
    const cost = (x: readonly number[]): number => this.hoursOf(x);
    const { x, spread } = this.start();
    const rough = descend(cost, x, spread, 3e-3, 40);
    const soaks = SOAKS_TRIED.map((tens) => [tens * this.decade, ...rough.x.slice(1)]).map((other) => ({ x: other, cost: cost(other) }));
    const from = soaks.reduce((best, one) => (one.cost < best.cost ? one : best), rough);
    return descend(cost, from.x, spread.map((step) => -step / 2), 5e-4, 50).x;
  }

  /** A first candidate and how far to look around it, read from what was found for 12 to 200 mm. */
  start(): { readonly x: readonly number[]; readonly spread: readonly number[] } {
    const { decade } = this;
    const freeze = 6 * decade + 1.3 * decade * Math.max(0, Math.log10(15 / this.rates.slow));
    return { x: [-decade, freeze, freeze + 5 * decade, 1], spread: [decade, 0.8 * decade, decade, 0.4] };
  }

  /** Hours from the start of the drop to the room of one candidate, with a steep slope beyond what makes sense. */
  hoursOf(x: readonly number[]): number {
    const beyond = this.beyond(x);
    return beyond > 0 ? 1e5 * (1 + beyond) : this.tried(x, this.bounds, MOST_ROUNDS).hours;
  }

  /** The same candidate with soak and corners at whole degrees, as they are typed into controllers. */
  inWholeDegrees(x: readonly number[]): readonly number[] {
    return x.map((value, i) => (i <= SLOW_RAMPS ? (this.strainC - Math.round(this.temperature(value))) / 10 : value));
  }

  /** The way down of a candidate, its rates brought to these limits. */
  wayDown(x: readonly number[], bounds: Bounds): WayDown {
    return this.tried(x, bounds, 2 * MOST_ROUNDS);
  }

  private temperature(tens: number | undefined): number {
    return this.strainC - 10 * (tens ?? 0);
  }

  private beyond(x: readonly number[]): number {
    const at = x.slice(0, 1 + SLOW_RAMPS).map((tens) => this.temperature(tens));
    const soakC = at[0] ?? 0;
    const hottest = Math.min(this.softC, temperatureAt(this.task.glass.viscosity, LOG_HOTTEST_SOAK));
    let beyond = Math.max(0, soakC - hottest) + Math.max(0, this.strainC - COLDEST_SOAK_BELOW_STRAIN_K - soakC);
    for (let i = 1; i < at.length; i += 1) beyond += Math.max(0, (at[i] ?? 0) + 2 - (at[i - 1] ?? 0));
    return (beyond + Math.max(0, COLDEST_CORNER_C - (at.at(-1) ?? 0))) / 10;
  }

  private tried(x: readonly number[], limits: Bounds, rounds: number): Tried {
    const soakC = this.temperature(x[0]);
    const soakHours = this.soak(soakC, limits);
    const corners = x.slice(1, 1 + SLOW_RAMPS).map((tens) => this.temperature(tens));
    const before = (this.softC - soakC) / this.rates.drop + soakHours;
    for (let round = 1; ; round += 1) {
      const { slow, last } = this.ramps(corners, x[1 + SLOW_RAMPS] ?? 0);
      const met = this.follow(slow, last);
      const over = Math.max(met.permanentMPa / limits.permanentMPa, met.slowMPa / limits.passingMPa, met.lastMPa / limits.passingMPa);
      const next = this.corrected(met, limits);
      const moved = Math.max(Math.abs(next.slow / this.rates.slow - 1), Math.abs(next.last / this.rates.last - 1));
      const drop = { fromC: this.softC, rateKPerH: this.rates.drop };
      // Hours go with one over the rate: what the candidate takes when its rates are just at the limits.
      const tried = { hours: (before + rampHours(soakC, [...slow, last])) * Math.max(1, over), drop, soakC, soakHours, slow, last };
      this.rates = next;
      if (moved < NEAR || round >= rounds) return tried;
    }
  }

  /** Stress goes with the rate; the last rate also has what is frozen into the surface to use up. */
  private corrected({ permanentMPa, slowMPa, lastMPa, frozenMPa }: Met, limits: Bounds): Rates {
    const { fastestKPerH } = this.task;
    const { slow, last, drop } = this.rates;
    const passing = slowMPa > limits.passingMPa ? limits.passingMPa / slowMPa : Infinity;
    return {
      slow: Math.min(fastestKPerH, slow * Math.min(passing, limits.permanentMPa / Math.max(permanentMPa, 1e-6))),
      last: Math.min(fastestKPerH, last * ((limits.passingMPa + frozenMPa) / Math.max(lastMPa + frozenMPa, 1e-6))),
      drop,
    };
  }

  /**
   * Drop and soak, left in `soaked`; returns the hours of the soak. It ends when the core is no warmer than half
   * of what the slow ramp will make it, and no tension above the permanent limit is left. The end of the drop
   * is as slow as the passing tension asks.
   */
  private soak(soakC: number, { permanentMPa, dropMPa }: Bounds): number {
    const { soaked, work, levelK, task, softC } = this;
    const fastest = Math.min(task.dropKPerH, task.fastestKPerH);
    let drop = Math.min(this.rates.drop, fastest);
    for (let round = 0; ; round += 1) {
      copySlab(this.above, soaked);
      const seen = nothingSeen();
      lead(soaked, soakC, (softC - soakC) / drop, seen);
      if (task.leastSoakHours > 0) lead(soaked, soakC, task.leastSoakHours, seen);
      const excess = ({ coreSurfaceK, tensionMPa }: SlabState): number => Math.max(coreSurfaceK / levelK, tensionMPa / permanentMPa, 1e-3);
      const hours = task.leastSoakHours + holdUntil(soaked, work, MOST_SOAK_HOURS, seen, excess);
      const share = dropMPa / Math.max(seen.tensionMPa, 1e-6);
      const wished = Math.min(fastest, drop * share);
      this.rates = { ...this.rates, drop };
      if (round >= MOST_ROUNDS || Math.abs(wished / drop - 1) < 0.02) return hours;
      drop = wished;
    }
  }

  /** Each slow ramp is as much faster as asked for, but never faster than the last one. */
  private ramps([freeze, settle]: readonly number[], faster: number): { slow: CoolingRamp[]; last: CoolingRamp } {
    const { slow, last } = this.rates;
    const most = Math.min(last, this.task.fastestKPerH);
    return {
      slow: [
        { toC: freeze ?? 0, rateKPerH: Math.min(slow, most) },
        { toC: settle ?? 0, rateKPerH: Math.min(slow * Math.exp(Math.abs(faster)), most) },
      ],
      last: { toC: ROOM_END_C, rateKPerH: most },
    };
  }

  private follow(slow: readonly CoolingRamp[], last: CoolingRamp): Met {
    const { soaked, work } = this;
    copySlab(soaked, work);
    const seenSlow = nothingSeen();
    for (const { toC, rateKPerH } of slow) lead(work, toC, (work.surfaceC - toC) / rateKPerH, seenSlow);
    const seenLast = nothingSeen();
    lead(work, last.toC, (work.surfaceC - last.toC) / last.rateKPerH, seenLast);
    comeToRest(work);
    return { permanentMPa: work.tensionMPa, slowMPa: seenSlow.tensionMPa, lastMPa: seenLast.tensionMPa, frozenMPa: Math.max(0, -work.surfaceMPa) };
  }
}

/** Where ramps end as far as stress goes, °C; the published tables end here too. */
export const ROOM_END_C = 21;

/** What a candidate's ramps lead to: permanent tension, tension during slow and last ramps, compression frozen into the surface. */
type Met = { readonly permanentMPa: number; readonly slowMPa: number; readonly lastMPa: number; readonly frozenMPa: number };

function rampHours(soakC: number, ramps: readonly CoolingRamp[]): number {
  let fromC = soakC;
  let hours = 0;
  for (const { toC, rateKPerH } of ramps) {
    hours += (fromC - toC) / rateKPerH;
    fromC = toC;
  }
  return hours;
}
