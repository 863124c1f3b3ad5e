import { readCastingInput } from "@/lib/contracts/casting-input";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { planFiring } from "@/lib/domain/firing/plan";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { simulate } from "@/lib/domain/stress/simulate";
import { solveMesh } from "@/lib/server/mesh/solve-mesh";
import { againstLongSearch, compared, ROWS, taskOf } from "./planning";
import { scan } from "./scan";
import { seeded } from "./seeded";
import { quench, quenchDeviations, rampDeviations, slowDeviations, stepDeviations, suddenFreezing, type Deviation } from "./simulation-errors";

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
/** Another piece every time, so that nothing is remembered from the one before. */
let pieces = 0;
const another = (): CastingInput => {
  pieces += 1;
  return { ...casting.value, piece: { ...casting.value.piece, sizeMm: [200, 150, 60 + pieces] } };
};
timed("plan one casting", 60, () => planFiring(another()));
timed("plan the same casting again, as for another kiln", 60, () => planFiring(casting.value));

const month = [[0, 620], [10, 540], [40, 540], [300, 430], [400, 380], [720, 20]] as const;
timed("simulate a 30-day program, 24 glass and 12 mould cells", 30, () =>
  simulate({ glass: catalogueGlass("soda-lime-casting"), shape: "slab", thicknessM: 0.15, mouldWallM: 0.04, surface: "fixed", startC: 620, program: month }),
);

/** In the server a thread does this, which takes some tenths of a second to start. */
const file = { fileName: "scan.stl", bytes: scan(), unit: "mm", up: "+z" } as const;
timed("read, check and solve a scan of 202500 triangles, all round and open above", 5, () => {
  const solved = solveMesh(file, () => undefined);
  if (!solved.ok) throw new Error(solved.problems[0].message);
});

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

const table = ROWS.map(compared);
const spread = (glass: string, key: "permanentMPa" | "passingMPa"): number => {
  const values = table.filter(({ row }) => row.glass === glass).map((one) => one[key]);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.max(...values.map((value) => Math.abs(100 * (value / mean - 1))));
};
for (const { row, permanentMPa, passingMPa, ratio } of table) {
  const name = `published program, ${row.glass}, ${row.thicknessMm} mm`;
  process.stdout.write(`${name}, permanent tension it leaves: ${permanentMPa.toFixed(2)} MPa\n${name}, passing tension: ${passingMPa.toFixed(2)} MPa\n${name}, shortest cooling at the same stresses: ${ratio.toFixed(3)} of its hours\n`);
}
for (const glass of ["soda-lime-casting", "lead-crystal-45"]) {
  for (const key of ["permanentMPa", "passingMPa"] as const) process.stdout.write(`published programs, ${glass}, ${key === "permanentMPa" ? "permanent" : "passing"} tension, furthest from its mean: ${spread(glass, key).toFixed(0)} %\n`);
}
const ratios = table.map(({ ratio }) => ratio).sort((a, b) => a - b);
process.stdout.write(`shortest cooling at the programs' own stresses, median: ${(ratios[Math.floor(ratios.length / 2)] ?? NaN).toFixed(3)} of their hours\n`);
const random = seeded(1);
const longer = table.map(({ row, permanentMPa, passingMPa }) => againstLongSearch(taskOf(row, { permanentMPa, passingMPa }), 20, random));
process.stdout.write(`shortest cooling over the best of 20 long searches, worst of ${longer.length}: ${(100 * (Math.max(...longer) - 1)).toFixed(2)} %\n`);
