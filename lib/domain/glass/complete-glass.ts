import type { CastingInput, OwnGlass } from "@/lib/domain/firing/casting-input";
import type { Outcome } from "@/lib/domain/refusal";
import { ok, refusalOf } from "@/lib/domain/refusal";
import { CATALOGUE, catalogueGlass } from "./catalogue";
import { checkOwnGlass } from "./check-own-glass";
import type { Glass, HeatCapacity, Viscosity } from "./glass";
import { fitThrough, LOG_ANNEALING, LOG_SOFTENING, LOG_STRAIN, temperatureAt } from "./viscosity";

export type CompletedGlass = {
  readonly glass: Glass;
  /** One sentence for everything that was taken from the catalogue. */
  readonly assumptions: readonly string[];
};

/**
 * A glass with nothing left out. A catalogue glass is looked up. Of a member's own glass, whatever is
 * left out is taken from the nearest catalogue glass, and every such assumption is named.
 *
 * Refuses fixed points out of order and properties outside the range of any casting glass.
 */
export function completeGlass(given: CastingInput["glass"]): Outcome<CompletedGlass> {
  if (typeof given === "string") return ok({ glass: catalogueGlass(given), assumptions: [] });
  const refusal = refusalOf(checkOwnGlass(given));
  if (refusal) return refusal;
  const nearest = nearestGlass(given);
  return ok({ glass: filledIn(given, nearest), assumptions: assumptionsFor(given, nearest) });
}

function filledIn(given: OwnGlass, nearest: Glass): Glass {
  const viscosity = given.viscosity ?? viscosityFromPoints(given, nearest.viscosity);
  const expansionSolidPerK = given.expansionSolidPerK ?? nearest.expansionSolidPerK;
  const ratio = nearest.expansionLiquidPerK / nearest.expansionSolidPerK;
  return {
    id: "own",
    name: given.name,
    densityKgM3: given.densityKgM3 ?? nearest.densityKgM3,
    viscosity,
    expansionSolidPerK,
    expansionLiquidPerK: given.expansionLiquidPerK ?? ratio * expansionSolidPerK,
    youngGPa: given.youngGPa ?? nearest.youngGPa,
    poisson: given.poisson ?? nearest.poisson,
    conductivityWPerMK: given.conductivityWPerMK ?? nearest.conductivityWPerMK,
    heatCapacity: given.heatCapacity === undefined ? nearest.heatCapacity : heatCapacityOf(given.heatCapacity),
    stressOpticBrewster: nearest.stressOpticBrewster,
    relaxation: { ...nearest.relaxation, ...movedReference(nearest, viscosity), ...given.relaxation },
  };
}

function heatCapacityOf(given: NonNullable<OwnGlass["heatCapacity"]>): HeatCapacity {
  return given === "soda-lime" ? { kind: "curve", scale: 1 } : { kind: "constant", jPerKgK: given };
}

/** The borrowed relaxation keeps its distance from the annealing point. */
function movedReference(nearest: Glass, viscosity: Viscosity): { referenceC: number } {
  const shift = temperatureAt(viscosity, LOG_ANNEALING) - temperatureAt(nearest.viscosity, LOG_ANNEALING);
  return { referenceC: nearest.relaxation.referenceC + shift };
}

/**
 * Three fixed points give their own curve; one or two shift the borrowed curve along the temperature so
 * that it meets them on average; none leave it as it is.
 */
export function viscosityFromPoints(given: OwnGlass, borrowed: Viscosity): Viscosity {
  const { softeningPointC: soft, annealingPointC: anneal, strainPointC: strain } = given;
  if (soft !== undefined && anneal !== undefined && strain !== undefined) {
    const own = fitThrough([soft, LOG_SOFTENING], [anneal, LOG_ANNEALING], [strain, LOG_STRAIN]);
    if (own) return own;
  }
  const shifts = (
    [
      [soft, LOG_SOFTENING],
      [anneal, LOG_ANNEALING],
      [strain, LOG_STRAIN],
    ] as const
  ).flatMap(([pointC, log]) => (pointC === undefined ? [] : [pointC - temperatureAt(borrowed, log)]));
  const shift = shifts.length === 0 ? 0 : shifts.reduce((sum, one) => sum + one, 0) / shifts.length;
  return { ...borrowed, T0C: borrowed.T0C + shift };
}

/**
 * Nearest by what is known, each difference over what separates neighbours in the catalogue: 300 kg/m³,
 * 40 K of annealing point, 1e-6 of expansion. Casting soda-lime when nothing is known.
 */
function nearestGlass(given: OwnGlass): Glass {
  const annealingC = given.annealingPointC ?? (given.viscosity && temperatureAt(given.viscosity, LOG_ANNEALING));
  const distance = (glass: Glass): number => {
    const density = given.densityKgM3 === undefined ? 0 : (given.densityKgM3 - glass.densityKgM3) / 300;
    const anneal = annealingC === undefined ? 0 : (annealingC - temperatureAt(glass.viscosity, LOG_ANNEALING)) / 40;
    const expansion = given.expansionSolidPerK === undefined ? 0 : (given.expansionSolidPerK - glass.expansionSolidPerK) / 1e-6;
    return Math.hypot(density, anneal, expansion);
  };
  return CATALOGUE.reduce((best, glass) => (distance(glass) < distance(best) ? glass : best));
}

const PLAIN_PROPERTIES: readonly (readonly [keyof OwnGlass, string])[] = [
  ["densityKgM3", "density"],
  ["expansionSolidPerK", "expansion of the solid"],
  ["youngGPa", "Young's modulus"],
  ["poisson", "Poisson's ratio"],
  ["conductivityWPerMK", "conductivity"],
  ["heatCapacity", "heat capacity"],
];

function assumptionsFor(given: OwnGlass, nearest: Glass): string[] {
  const taken = PLAIN_PROPERTIES.filter(([key]) => given[key] === undefined).map(([, word]) => word);
  if (given.expansionLiquidPerK === undefined) taken.push("expansion of the liquid");
  const relaxation = Object.keys(nearest.relaxation).filter((key) => !(key in (given.relaxation ?? {})));
  if (relaxation.length > 0) taken.push("relaxation data");
  const sentences = taken.map((word) => `The ${word} of ${given.name} was not given; it is taken from ${nearest.name}.`);
  return given.viscosity === undefined ? [...sentences, viscosityAssumption(given, nearest)] : sentences;
}

function viscosityAssumption(given: OwnGlass, nearest: Glass): string {
  const known = [given.softeningPointC, given.annealingPointC, given.strainPointC].filter((point) => point !== undefined).length;
  if (known === 3) return `The viscosity of ${given.name} is drawn through its three fixed points; where it melts it is an estimate.`;
  const moved = known === 0 ? "as it stands" : "moved to the fixed points given";
  return `The viscosity of ${given.name} was not given; it is that of ${nearest.name}, ${moved}.`;
}
