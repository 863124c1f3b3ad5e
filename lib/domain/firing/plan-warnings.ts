import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { hoursInWords, inDigits } from "@/lib/domain/firing/figures";
import { LONG_FLOW_HOURS } from "@/lib/domain/firing/flow";
import type { LoadMasses } from "@/lib/domain/firing/load-masses";
import { NOT_COVERED_SENTENCE } from "@/lib/domain/firing/not-covered";
import { processWarnings } from "@/lib/domain/firing/process-temperature";
import type { CoolingStress } from "@/lib/domain/stress/shortest-cooling";
import type { StressLimits } from "@/lib/domain/stress/stress-level";
import { HOURS_PER_WEEK, millimetres } from "@/lib/domain/units";

/** Beyond this one pot gets unwieldy, litres (common practice). */
const LARGE_POT_L = 25;
/** The published tables end at 200 mm; thicker is the same law beyond what it was compared with. */
const TABLE_END_MM = 200;
/** No workshop gives one casting a kiln for longer without a talk (common practice). */
const LONG_FIRING_HOURS = 12 * HOURS_PER_WEEK;

type Planned = {
  readonly input: CastingInput;
  readonly load: LoadMasses;
  readonly processC: number;
  readonly runningHours: number;
  readonly segments: number;
  readonly firingHours: number;
  readonly stress: CoolingStress;
  readonly limits: StressLimits;
};

/** The model is not surer of a stress than this; beyond, a limit is not kept. */
const SURE = 1.01;

/** What a person must know of this plan beyond its numbers. */
export function planWarnings(planned: Planned): string[] {
  const { input, load, processC } = planned;
  return [
    ...processWarnings(input, processC),
    ...programWarnings(planned),
    ...stressWarnings(planned),
    ...glassWarnings(planned),
    ...sizeWarnings(input, load),
    NOT_COVERED_SENTENCE,
  ];
}

function programWarnings({ input, segments, firingHours }: Planned): string[] {
  const warnings: string[] = [];
  const available = input.kiln?.controllerSegments;
  if (available !== undefined && segments > available) {
    warnings.push(`The program needs ${segments} segments; this controller holds ${available}. Run it as ${Math.ceil(segments / available)} programs, one after another, or step by hand.`);
  }
  if (input.kiln === undefined) warnings.push("No kiln was named: the program is that of a large ideal kiln, and the energy is that of the load alone.");
  if (firingHours > LONG_FIRING_HOURS) {
    warnings.push(`${hoursInWords(firingHours)} is longer than twelve kiln-weeks; a thinner or hollow piece, cooling all round, or a looser stress level would shorten it.`);
  }
  return warnings;
}

/** Never silently: a limit that no way down was found to keep is named with what is reached. */
function stressWarnings({ stress, limits }: Planned): string[] {
  const permanent = Math.max(stress.permanentCentreMPa, stress.permanentSurfaceMPa);
  return [
    ...(permanent > SURE * limits.permanentMPa ? [`Permanent tension is ${inDigits(permanent)} MPa; no way down was found that keeps it within ${inDigits(limits.permanentMPa)} MPa. Choose a looser level.`] : []),
    ...(stress.passingMPa > SURE * limits.passingMPa ? [`Passing tension is ${inDigits(stress.passingMPa)} MPa; no way down was found that keeps it within ${inDigits(limits.passingMPa)} MPa. Choose a looser level.`] : []),
  ];
}

function glassWarnings({ load, runningHours }: Planned): string[] {
  const warnings: string[] = [];
  if (load.pot.litres > LARGE_POT_L) warnings.push(`A pot of ${load.pot.litres.toFixed(0)} litres is unwieldy; several pots, or charging twice, may be better.`);
  if (runningHours > LONG_FLOW_HOURS) {
    warnings.push(`The glass needs ${runningHours.toFixed(0)} h to run; a wider feeder shortens that. Lime glasses may devitrify between 700 and 900 °C in such a time.`);
  }
  return warnings;
}

function sizeWarnings({ piece, kiln }: CastingInput, { solid, loadMm }: LoadMasses): string[] {
  const warnings: string[] = [];
  if (solid.shape === "slab" && piece.waxKg === undefined) {
    warnings.push(`The sides of the slab are not known: masses and outside sizes are those of a square plate of ${millimetres(solid.sideM).toFixed(0)} mm. Weigh the wax to have them right.`);
  }
  const thickest = solid.shape === "mesh" ? Math.round(millimetres(Math.sqrt(8 * solid.body.maxM2))) : (piece.thickestMm ?? Math.min(...(piece.sizeMm ?? [0])));
  if (thickest > TABLE_END_MM) {
    warnings.push(`${thickest} mm is thicker than any published schedule (${TABLE_END_MM} mm); the law is carried on beyond what it was compared with.`);
  }
  if (kiln !== undefined) warnings.push(...tooLarge(loadMm, kiln.insideMm));
  return warnings;
}

function tooLarge(load: LoadMasses["loadMm"], [width, depth, height]: readonly [number, number, number]): string[] {
  const plain = (mm: number): string => mm.toFixed(0);
  const warnings: string[] = [];
  if (load.height > height) warnings.push(`Mould and pot together are ${plain(load.height)} mm high; this kiln is ${plain(height)} mm high inside.`);
  const straight = load.width <= width && load.depth <= depth;
  const turned = load.width <= depth && load.depth <= width;
  if (!straight && !turned) warnings.push(`The load is ${plain(load.width)} × ${plain(load.depth)} mm; this kiln is ${plain(width)} × ${plain(depth)} mm inside.`);
  return warnings;
}
