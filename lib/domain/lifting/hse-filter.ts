import { ok, refuse, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";

/**
 * The lifting filter of the British Health and Safety Executive, INDG143 "Manual handling at work: a
 * brief guide" (figures from a reproduction of its diagram, not from the leaflet itself). A filter
 * sorts out lifts that need no closer look; it is not a limit below which nobody is hurt.
 *
 * It holds for a stable load, both hands, good footing, a carry of at most about 10 m and up to about
 * 30 lifts an hour. A lift that passes through several zones is judged by the lowest figure.
 */
export type HandHeight = "above-shoulder" | "elbow-shoulder" | "knuckle-elbow" | "shin-knuckle" | "below-shin";
export type Reach = "near" | "far";
export type Zone = { readonly height: HandHeight; readonly reach: Reach };

/**
 * kg. `cautious` is the leaflet's column for women, `upper` its column for men: the first screens for
 * almost everybody, the second for the stronger half only, so nothing here is ever allowed by `upper`.
 */
export type FilterFigure = { readonly cautiousKg: number; readonly upperKg: number };

const FIGURES: Readonly<Record<HandHeight, Readonly<Record<Reach, FilterFigure>>>> = {
  "above-shoulder": { near: { cautiousKg: 7, upperKg: 10 }, far: { cautiousKg: 3, upperKg: 5 } },
  "elbow-shoulder": { near: { cautiousKg: 13, upperKg: 20 }, far: { cautiousKg: 7, upperKg: 10 } },
  "knuckle-elbow": { near: { cautiousKg: 16, upperKg: 25 }, far: { cautiousKg: 10, upperKg: 15 } },
  "shin-knuckle": { near: { cautiousKg: 13, upperKg: 20 }, far: { cautiousKg: 7, upperKg: 10 } },
  "below-shin": { near: { cautiousKg: 7, upperKg: 10 }, far: { cautiousKg: 3, upperKg: 5 } },
};

export function filterFigure(zone: Zone): FilterFigure {
  return FIGURES[zone.height][zone.reach];
}

/**
 * The lowest figures among all zones a lift passes through.
 * @example lowestFigure([{height:"knuckle-elbow",reach:"near"},{height:"below-shin",reach:"near"}]).cautiousKg // 7
 */
export function lowestFigure(zones: readonly [Zone, ...Zone[]]): FilterFigure {
  const figures = zones.map(filterFigure);
  return {
    cautiousKg: Math.min(...figures.map((figure) => figure.cautiousKg)),
    upperKg: Math.min(...figures.map((figure) => figure.upperKg)),
  };
}

/**
 * Share of the figure that is left when lifting often: full up to 30 an hour, less 30 % at once or
 * twice a minute, less 50 % at five to eight, less 80 % above twelve (INDG143). The leaflet is silent
 * between its rows; the stricter neighbour is used there.
 */
function frequencyShare(liftsPerMinute: number): number {
  if (liftsPerMinute <= 0.5) return 1;
  if (liftsPerMinute <= 2) return 0.7;
  if (liftsPerMinute <= 8) return 0.5;
  return 0.2;
}

/** Share left when the trunk twists: less 10 % beyond 45°, less 20 % beyond 90° (INDG143). */
function twistShare(twistDeg: number): number {
  if (twistDeg <= 45) return 1;
  return twistDeg <= 90 ? 0.9 : 0.8;
}

/** The figures reduced for frequent or twisted lifting. Frequency in lifts per minute, ≥ 0; twist 0 to 180°. */
export function reducedFigure(
  figure: FilterFigure,
  work: { readonly liftsPerMinute: number; readonly twistDeg: number },
): Outcome<FilterFigure> {
  const problems: Problem[] = [];
  if (!(work.liftsPerMinute >= 0 && work.liftsPerMinute < Infinity)) {
    problems.push(outside("liftsPerMinute", "lifts per minute", work.liftsPerMinute, "0 or more"));
  }
  if (!(work.twistDeg >= 0 && work.twistDeg <= 180)) {
    problems.push(outside("twistDeg", "twist", work.twistDeg, "0 to 180 degrees"));
  }
  const refusal = refusalOf(problems);
  if (refusal !== undefined) return refusal;
  const share = frequencyShare(work.liftsPerMinute) * twistShare(work.twistDeg);
  return ok({ cautiousKg: figure.cautiousKg * share, upperKg: figure.upperKg * share });
}

/**
 * What a team can lift, kg: two people two thirds of the sum of what each can lift alone, three people
 * half of it (HSE L23, guidance on the Manual Handling Operations Regulations, as quoted by others).
 * There is no published rule for four, so four are refused rather than guessed.
 */
export function teamCapabilityKg(eachKg: readonly number[]): Outcome<number> {
  const bad = eachKg.find((kg) => !(kg > 0 && kg < Infinity));
  if (bad !== undefined) return refuse(outside("eachKg", "what one person can lift", bad, "more than 0 kg"));
  const share = [undefined, 1, 2 / 3, 1 / 2][eachKg.length];
  if (share === undefined) {
    return refuse({
      code: "no-team-rule",
      message: `A team of ${eachKg.length} cannot be planned: published rules cover one, two or three people. Use a mechanical aid.`,
      field: "eachKg",
      value: eachKg.length,
      allowed: "1 to 3 people",
    });
  }
  return ok(share * eachKg.reduce((sum, kg) => sum + kg, 0));
}

function outside(field: string, name: string, value: number, allowed: string): Problem {
  return { code: "out-of-range", message: `${name} is ${value}; allowed is ${allowed}.`, field, value, allowed };
}
