import { readCastingInput } from "@/lib/contracts/casting-input";
import { planFiring } from "@/lib/domain/firing/plan";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { simulate } from "@/lib/domain/stress/simulate";
import { quench, quenchDeviations, rampDeviations, slowDeviations, stepDeviations, suddenFreezing, type Deviation } from "./bench/simulation-errors";

/** Prints `name: value unit` a line: medians of repeated runs, with the 5th and 95th percentile beside them. */
function timed(name: string, runs: number, work: () => void): void {
  work();
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  const at = (share: number): string => (times[Math.min(runs - 1, Math.floor(share * runs))] ?? 0).toFixed(2);
  process.stdout.write(`${name}: ${at(0.5)} ms (${at(0.05)} to ${at(0.95)}, ${runs} runs)\n`);
}

const casting = readCastingInput({
  glass: "soda-lime-casting",
  piece: { shape: "brick", sizeMm: [200, 150, 100] },
  cooling: "all-round",
  mould: { wallMm: 40, plasterSilicaWater: [1, 1, 1] },
  feeder: { diameterMm: 30, lengthMm: 60 },
  stress: "careful",
});
if (!casting.ok) throw new Error(casting.problems[0].message);
timed("plan one casting", 200, () => planFiring(casting.value));

const month = [[0, 620], [10, 540], [40, 540], [300, 430], [400, 380], [720, 20]] as const;
timed("simulate a 30-day program, 24 glass and 12 mould cells", 30, () =>
  simulate({ glass: catalogueGlass("soda-lime-casting"), shape: "slab", thicknessM: 0.15, mouldWallM: 0.04, surface: "fixed", startC: 620, program: month }),
);

/** The worst of a set of deviations by a measure, with where it is. */
function worst(name: string, unit: string, deviations: readonly Deviation[], measure: (one: Deviation) => number): void {
  const first = deviations.reduce((a, b) => (measure(b) > measure(a) ? b : a));
  process.stdout.write(`${name}: ${measure(first).toFixed(3)} ${unit} (${first.what}; ${deviations.length} figures)\n`);
}

const percent = ({ off }: Deviation): number => 100 * Math.abs(off);
const percentOf = ({ off, published }: Deviation): number => 100 * Math.abs(off / published);
worst("conduction after a step, worst error", "% of the driving difference", stepDeviations(), percent);
worst("conduction in a ramp, worst error", "% of q·L²/κ", rampDeviations(), percent);
worst("4 mm quench, worst error", "of what is allowed, 3 MPa or 5 %", quenchDeviations(), ({ off, published }) => Math.abs(off) / Math.max(3, 0.05 * Math.abs(published)));
const { permanent } = quench();
process.stdout.write(`4 mm quench, surface left: ${permanent.surfaceMPa.toFixed(1)} MPa\n4 mm quench, centre left: ${permanent.centreMPa.toFixed(1)} MPa\n`);
worst("slow cooling, worst error", "%", slowDeviations(), percentOf);
for (const shape of ["slab", "cylinder", "ball"] as const) {
  const { surface, centre } = suddenFreezing(shape);
  process.stdout.write(`sudden freezing, ${shape}, surface: ${surface.toFixed(4)} of the law\nsudden freezing, ${shape}, centre: ${centre.toFixed(4)} of the law\n`);
}
