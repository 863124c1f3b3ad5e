import type { OwnGlass, Relaxation } from "@/lib/domain/firing/casting-input";
import { outOfRange } from "@/lib/domain/range";
import type { Problem } from "@/lib/domain/refusal";
import { kelvin } from "@/lib/domain/units";
import { fitThrough, kelvinPerDecade, LOG_ANNEALING, LOG_SOFTENING, LOG_STRAIN, temperatureAt } from "./viscosity";
import type { Viscosity } from "./glass";

type Range = readonly [least: number, most: number, unit: string];

/** Wider than any glass that is cast in a workshop; narrower than a slip of a decimal point. */
export const OWN_GLASS_RANGES = {
  densityKgM3: [1800, 6500, "kg/m³"],
  strainPointC: [250, 800, "°C"],
  annealingPointC: [260, 850, "°C"],
  softeningPointC: [350, 1200, "°C"],
  expansionSolidPerK: [1e-6, 20e-6, "per K"],
  expansionLiquidPerK: [1e-6, 100e-6, "per K"],
  youngGPa: [20, 120, "GPa"],
  poisson: [0.1, 0.35, ""],
} as const satisfies Readonly<Partial<Record<keyof OwnGlass, Range>>>;

/** Every fault of a member's own glass. The field names start with "glass.". */
export function checkOwnGlass(given: OwnGlass): Problem[] {
  const numbers = Object.entries(OWN_GLASS_RANGES).flatMap(([key, [least, most, unit]]) => {
    const value = given[key as keyof OwnGlass];
    return typeof value === "number" ? listed(outOfRange(`glass.${key}`, value, least, most, unit)) : [];
  });
  const single = [...numbers, ...checkHeat(given), ...checkRelaxation(given.relaxation ?? {})];
  // Relations between figures are only asked about once each figure is possible by itself.
  return single.length > 0 ? single : [...checkOrder(given), ...checkExpansions(given), ...checkViscosity(given)];
}

function checkHeat({ heatCapacity, conductivityWPerMK }: OwnGlass): Problem[] {
  const heat = typeof heatCapacity === "number" ? listed(outOfRange("glass.heatCapacity", heatCapacity, 200, 3000, "J/kgK")) : [];
  if (conductivityWPerMK === undefined) return heat;
  const [c0, c1] = conductivityWPerMK;
  const wrong = [300, 1100].map((T) => c0 + c1 * T).find((k) => !(k >= 0.2 && k <= 5));
  if (wrong === undefined) return heat;
  const allowed = "0.2 to 5 W/mK between 300 and 1100 K";
  const message = `glass.conductivityWPerMK gives ${wrong} W/mK; it must stay within ${allowed}.`;
  return [...heat, { code: "out-of-range", field: "glass.conductivityWPerMK", value: conductivityWPerMK, allowed, message }];
}

function checkRelaxation(relaxation: Relaxation): Problem[] {
  const single = [
    relaxation.referenceC === undefined ? undefined : outOfRange("glass.relaxation.referenceC", relaxation.referenceC, 200, 1000, "°C"),
    relaxation.activationK === undefined ? undefined : outOfRange("glass.relaxation.activationK", relaxation.activationK, 10_000, 200_000, "K"),
    relaxation.nonlinearity === undefined ? undefined : outOfRange("glass.relaxation.nonlinearity", relaxation.nonlinearity, 0, 1),
    relaxation.bulkResidual === undefined ? undefined : outOfRange("glass.relaxation.bulkResidual", relaxation.bulkResidual, 0, 1),
  ].flatMap(listed);
  const spectra = (["structure", "shear", "bulk"] as const).flatMap((name) => listed(checkSpectrum(name, relaxation[name])));
  return [...single, ...spectra];
}

/** Published spectra sum to one within their rounding. */
const WEIGHT_TOLERANCE = 0.01;

function checkSpectrum(name: string, terms: Relaxation["structure"]): Problem | undefined {
  if (terms === undefined) return undefined;
  const sum = terms.reduce((total, [weight]) => total + weight, 0);
  const positive = terms.every(([weight, seconds]) => weight > 0 && seconds > 0 && Number.isFinite(seconds));
  if (positive && Math.abs(sum - 1) <= WEIGHT_TOLERANCE) return undefined;
  const field = `glass.relaxation.${name}`;
  const allowed = "positive weights that sum to 1, each with a time above 0 s";
  return { code: "out-of-range", field, value: terms, allowed, message: `${field} has weights that sum to ${sum}; it must hold ${allowed}.` };
}

function checkOrder({ strainPointC, annealingPointC, softeningPointC }: OwnGlass): Problem[] {
  const points = [
    ["strainPointC", strainPointC],
    ["annealingPointC", annealingPointC],
    ["softeningPointC", softeningPointC],
  ] as const;
  const known = points.flatMap(([key, value]) => (value === undefined ? [] : [{ key, value }]));
  return known.flatMap((point, index) => {
    const before = known[index - 1];
    if (before === undefined || before.value < point.value) return [];
    const allowed = `above ${before.value} °C, the ${before.key}`;
    const message = `glass.${point.key} is ${point.value} °C; it must be ${allowed}.`;
    return [{ code: "points-out-of-order", field: `glass.${point.key}`, value: point.value, allowed, message }];
  });
}

function checkExpansions({ expansionSolidPerK, expansionLiquidPerK }: OwnGlass): Problem[] {
  if (expansionSolidPerK === undefined || expansionLiquidPerK === undefined) return [];
  if (expansionLiquidPerK >= expansionSolidPerK) return [];
  const allowed = `at least ${expansionSolidPerK} per K, that of the solid`;
  const message = `glass.expansionLiquidPerK is ${expansionLiquidPerK}; it must be ${allowed}.`;
  return [{ code: "out-of-range", field: "glass.expansionLiquidPerK", value: expansionLiquidPerK, allowed, message }];
}

function checkViscosity(given: OwnGlass): Problem[] {
  if (given.viscosity) return listed(checkCurve("glass.viscosity", given.viscosity));
  const { strainPointC: strain, annealingPointC: anneal, softeningPointC: soft } = given;
  if (strain === undefined || anneal === undefined || soft === undefined || !(strain < anneal && anneal < soft)) return [];
  const curve = fitThrough([soft, LOG_SOFTENING], [anneal, LOG_ANNEALING], [strain, LOG_STRAIN]);
  if (curve) return listed(checkCurve("glass.annealingPointC", curve));
  const most = Math.round(soft - ((soft - strain) * (LOG_ANNEALING - LOG_SOFTENING)) / (LOG_STRAIN - LOG_SOFTENING));
  const allowed = `below ${most} °C with these strain and softening points`;
  const message = `glass.annealingPointC is ${anneal} °C; no glass stiffens that way: it must be ${allowed}.`;
  return [{ code: "points-out-of-order", field: "glass.annealingPointC", value: anneal, allowed, message }];
}

/** A curve is usable when its strain point lies where glasses have it and it is not flatter than silica's. */
function checkCurve(field: string, viscosity: Viscosity): Problem | undefined {
  const strainC = temperatureAt(viscosity, LOG_STRAIN);
  const decadeK = kelvinPerDecade(viscosity, strainC);
  const rises = viscosity.B > 0 && viscosity.A < LOG_SOFTENING && viscosity.T0C < strainC && viscosity.T0C > -kelvin(0);
  if (rises && strainC >= 250 && strainC <= 800 && decadeK >= 2 && decadeK <= 35) return undefined;
  const allowed = "a curve whose strain point (10^13.5 Pa·s) is 250 to 800 °C and which changes tenfold over 2 to 35 K there";
  const message = `${field} puts the strain point at ${Math.round(strainC)} °C with ${decadeK.toFixed(1)} K per decade; it must be ${allowed}.`;
  return { code: "out-of-range", field, value: viscosity, allowed, message };
}

function listed(problem: Problem | undefined): Problem[] {
  return problem === undefined ? [] : [problem];
}
