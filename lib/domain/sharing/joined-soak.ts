import { kelvinPerDecade, log10Viscosity, LOG_STRAIN, temperatureAt } from "@/lib/domain/glass/viscosity";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import type { ShortestCooling } from "@/lib/domain/stress/shortest-cooling";
import { apart, commonRange, type OwnRange } from "./common-range";
import type { LaidSharer, PreparedSharer } from "./sharer";

/** A casting and its own way down from the joined flow. */
export type Cooled = PreparedSharer & { readonly own: ShortestCooling };

export type JoinedSoak = { readonly soakC: number; readonly hours: readonly number[] };

/** The hottest soak that plans try: stress is gone at once, and hotter only costs hours. */
const LOG_HOTTEST = 11.5;
/** Two decades stiffer than at the strain point nothing relaxes in any time worth waiting for. */
const COLDEST_DECADES = 2;
/** Nothing is levelled for longer than this many hours (a month). */
const MOST_SOAK_HOURS = 720;

/** Where a casting's glass gives up its stress in a time worth waiting for. */
export function soakRange({ title, glass }: LaidSharer): OwnRange {
  const strainC = temperatureAt(glass.viscosity, LOG_STRAIN);
  return {
    title, glassName: glass.name,
    lowC: Math.ceil(strainC - COLDEST_DECADES * kelvinPerDecade(glass.viscosity, strainC)),
    highC: Math.floor(temperatureAt(glass.viscosity, LOG_HOTTEST)),
  };
}

/**
 * One soak for all: as warm as the casting that soaks warmest wants it, as far as all glasses are stiff there.
 * Colder than its own soak a glass takes longer in proportion to its viscosity; warmer, its own hours do.
 */
export function joinSoak(sharers: readonly Cooled[]): Outcome<JoinedSoak> {
  const ranges = sharers.map(soakRange);
  const none = apart("soak", ranges);
  if (none !== undefined) return none;
  const soakC = Math.min(commonRange(ranges).highC, Math.max(...sharers.map(({ own }) => Math.round(own.soakC))));
  const hours = sharers.map(({ own, glass }) => own.soakHours * Math.max(1, 10 ** (log10Viscosity(glass.viscosity, soakC) - log10Viscosity(glass.viscosity, own.soakC))));
  const slowest = hours.findIndex((one) => !(one <= MOST_SOAK_HOURS));
  const slow = sharers[slowest];
  if (slow === undefined) return ok({ soakC, hours });
  return refuse({
    code: "soaks-too-long", field: "glass", value: Math.round(hours[slowest] ?? 0), allowed: `up to ${MOST_SOAK_HOURS} h`,
    message: `${slow.title} (${slow.glass.name}) would have to soak ${Math.round(hours[slowest] ?? 0)} h at ${soakC} °C, the warmest that all castings stand; ${MOST_SOAK_HOURS} h is the most. Allowed beside the others is a glass that soaks nearer to ${soakC} °C.`,
  });
}
