import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan, Lift, Stage } from "@/lib/domain/firing/casting-plan";
import { coolingStages, endsTooCold } from "@/lib/domain/firing/cooling";
import { coolingFor, roundOf } from "@/lib/domain/firing/cooling-for";
import { energyKWh } from "@/lib/domain/firing/energy";
import { fitController, segmentsOf } from "@/lib/domain/firing/fit-controller";
import { flowHours, MOST_FLOW_HOURS, runHours } from "@/lib/domain/firing/flow";
import { flowStage } from "@/lib/domain/firing/flow-stage";
import { heatBareGlass, heatMould } from "@/lib/domain/firing/heating";
import { loadMasses, mixedUpUnits, type LoadMasses } from "@/lib/domain/firing/load-masses";
import { loadedKiln, powerProblem } from "@/lib/domain/firing/loaded-kiln";
import { bodyOfCasting, lagOfCasting } from "@/lib/domain/firing/planned-body";
import { planWarnings } from "@/lib/domain/firing/plan-warnings";
import { processProblems, processTemperature } from "@/lib/domain/firing/process-temperature";
import { reservationFor } from "@/lib/domain/firing/reservation";
import { totalHours } from "@/lib/domain/firing/segment";
import { inputProblems } from "@/lib/domain/firing/validate-input";
import { completeGlass, type CompletedGlass } from "@/lib/domain/glass/complete-glass";
import { liftsOf } from "@/lib/domain/lifting/lifts";
import { airDryingDays } from "@/lib/domain/mould/air-drying";
import { steamOut } from "@/lib/domain/mould/steam-out";
import { ok, refusalOf, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { slowCool } from "@/lib/domain/stress/quasi-steady";
import { retardationNmPerCm } from "@/lib/domain/stress/retardation";
import { stressLimits } from "@/lib/domain/stress/stress-level";
import { litres, metres, millimetres } from "@/lib/domain/units";

/** Kept with every stored plan: two plans of different versions may differ for the same casting. */
export const CALCULATION = "transient-2";

/**
 * From a casting to everything that follows from it: glass, mould, pot, firing plan with its reasons
 * and stresses, kiln-hours to reserve, energy and lifts. Pure and quick enough for every keystroke.
 * Refusals name field, value and range, all at once; what the model does not cover stands in `warnings`.
 * A piece of shape "mesh" needs `mesh`, the body that its file encloses.
 */
export function planFiring(input: CastingInput, mesh?: MeshBody): Outcome<CastingPlan> {
  const problems = inputProblems(input, mesh);
  const completed = completeGlass(input.glass);
  if (!completed.ok) problems.push(...completed.problems);
  const mixUp = problems.length === 0 ? mixedUpUnits(input, mesh) : undefined;
  if (mixUp !== undefined) problems.push(mixUp);
  if (problems.length === 0 && completed.ok) {
    problems.push(...processProblems(input, completed.value.glass, processTemperature(input, completed.value.glass)));
  }
  const refusal = refusalOf(problems);
  if (refusal !== undefined) return refusal;
  return completed.ok ? planChecked(input, completed.value, mesh) : completed;
}

function planChecked(input: CastingInput, completed: CompletedGlass, mesh: MeshBody | undefined): Outcome<CastingPlan> {
  const { glass } = completed;
  const load = loadMasses(input, glass, mesh);
  const limits = stressLimits(input.stress);
  const body = bodyOfCasting(input, load);
  const lag = lagOfCasting(input, load, glass);
  const processC = processTemperature(input, glass);
  const loaded = loadedKiln(input.kiln, load);
  const impossible = refusalOf([powerProblem(loaded, processC), endsTooCold(slowCool(glass, body, limits))].filter((problem) => problem !== undefined));
  if (impossible !== undefined) return impossible;
  const running = runHours(glass, processC, { feeder: input.feeder, headM: metres(load.pot.heightMm), volumeM3: load.glass.chargeKg / glass.densityKgM3 });
  const tooStiff = stiffGlass(input, glass.name, processC, running);
  if (tooStiff !== undefined) return tooStiff;
  const heating = { input, load, kiln: loaded, processC };
  const flow = flowStage(glass, processC, flowHours(running, lag), running);
  const shortest = coolingFor(glass, body, input.piece.thickestMm === undefined ? roundOf(load.solid, input.cooling) : undefined, input.stress, processC, lag);
  const up = input.mould === undefined ? heatBareGlass(heating, { glass, body, cooledKPerH: (shortest.slow[0] ?? shortest.last).rateKPerH }) : heatMould(heating, input.mould.wallMm);
  const down = coolingStages({ processC, body, shortest, limits, level: input.stress, lagHours: lag, loaded, kiln: input.kiln });
  const program = fitController([...[...up, flow].map((stage) => ({ ...stage, segments: 1 })), ...down], input.kiln?.controllerSegments);
  const stages: Stage[] = program.map(({ segments: _segments, ...stage }) => stage);
  const hours = totalHours(stages);
  const { stress } = shortest;
  return ok({
    calculation: CALCULATION,
    glass: load.glass,
    pot: load.pot,
    mould: load.mould,
    waxKg: load.waxKg,
    loadMm: load.loadMm,
    shelfKg: load.shelfKg,
    steamOut: input.mould === undefined ? { hours: 0, condensateKg: 0 } : steamOut(metres(input.mould.wallMm), load.mould.wetKg, load.waxKg),
    drying: drying(load),
    shape: { slabEquivalentMm: millimetres(body.slabEquivalentM), volumeL: litres(load.volumeM3) },
    firing: { stages, hours, annealingHours: annealingHours(stages), peakC: processC },
    stress: { ...stress, centreNmPerCm: retardationNmPerCm(glass, stress.permanentCentreMPa) },
    reservation: reservationFor({ program, mould: input.mould, learned: input.kiln?.margin }),
    energy: { kWh: energyKWh(stages, load, loaded) },
    lifts: lifts(input, load),
    warnings: [...completed.assumptions, ...planWarnings({ input, load, processC, runningHours: running, segments: segmentsOf(program), firingHours: hours, stress, limits })],
  });
}

/** The published unit: hours from the start of Soak until 25 °C, at the last rate where the program ends above. */
function annealingHours(stages: readonly Stage[]): number {
  const from = stages.findIndex((stage) => stage.stage === "Soak");
  const cooling = stages.slice(from).filter((stage) => stage.stage !== "Open");
  const last = cooling.at(-1);
  const rest = last === undefined || last.toC <= 25 ? 0 : (last.toC - 25) / Math.abs(last.rateKPerH);
  return totalHours(cooling) + rest;
}

/** The time to run through goes with the fourth power of the width, so the width that would do is known. */
function stiffGlass({ feeder }: CastingInput, name: string, processC: number, running: number): Refusal | undefined {
  if (feeder === undefined || running <= MOST_FLOW_HOURS) return undefined;
  const { diameterMm } = feeder;
  const allowed = `at least ${Math.ceil(diameterMm * (running / MOST_FLOW_HOURS) ** 0.25)} mm`;
  return refuse({
    code: "does-not-run", field: "feeder.diameterMm", value: diameterMm, allowed,
    message: `feeder.diameterMm is ${diameterMm} mm; ${name} at ${processC} °C would need ${Math.round(running)} h to run through. It must be ${allowed}, or the feeder shorter, the program hotter or the glass softer.`,
  });
}

function drying({ mould }: LoadMasses): CastingPlan["drying"] {
  const [w, d, h] = mould.outsideMm.map(metres) as [number, number, number];
  if (!(mould.freeWaterKg > 0)) return { airDaysFrom: 0, airDaysTo: 0 };
  const days = airDryingDays(mould.freeWaterKg, 2 * (w * d + d * h + h * w));
  return { airDaysFrom: days.from, airDaysTo: days.to };
}

/** Bare glass is only carried to the kiln and back. */
function lifts(input: CastingInput, { mould, waxKg, pot, glass }: LoadMasses): readonly Lift[] {
  if (input.mould !== undefined) {
    return liftsOf({
      wetMouldKg: mould.wetKg, waxKg, dryMouldKg: mould.dryKg, potKg: pot.kg, chargeKg: glass.chargeKg,
      firedMouldKg: mould.firedKg, glassKg: glass.chargeKg - glass.residueKg, driedBeforeLoading: input.mould.driedBeforeLoading === true,
    });
  }
  const bare = liftsOf({ wetMouldKg: 0, waxKg: 0, dryMouldKg: glass.pieceKg, potKg: 0, chargeKg: 0, firedMouldKg: 0, glassKg: glass.pieceKg, driedBeforeLoading: true });
  return bare.filter((lift) => lift.what === "load" || lift.what === "unload");
}
