import type { CastingInput, KilnForPlan } from "@/lib/domain/firing/casting-input";
import { INPUT_RANGES } from "@/lib/domain/firing/input-ranges";
import { MOST_MARGIN } from "@/lib/domain/firing/learn-margin";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { SIZE_WORDS } from "@/lib/domain/shape/solid";
import { millimetres } from "@/lib/domain/units";
import { outOfRange } from "@/lib/domain/range";
import type { Problem } from "@/lib/domain/refusal";

const [, MOST_THICK_MM] = INPUT_RANGES["piece.thickestMm"];

/**
 * Every fault of a casting at once, each naming field, value and range. What passes can be planned,
 * save for what depends on the glass itself (process temperature, wax against size).
 */
export function inputProblems(input: CastingInput, mesh?: MeshBody): Problem[] {
  return [
    ...pieceProblems(input, mesh),
    ...mouldProblems(input),
    ...feederProblems(input),
    ...(input.kiln === undefined ? [] : kilnProblems(input.kiln)),
    ...stressProblems(input),
    ...within("processC", input.processC),
  ];
}

function range(field: string, value: number | undefined, least: number, most: number, unit = ""): Problem[] {
  const problem = value === undefined ? undefined : outOfRange(field, value, least, most, unit);
  return problem === undefined ? [] : [problem];
}

function within(field: keyof typeof INPUT_RANGES, value: number | undefined): Problem[] {
  const [least, most, unit] = INPUT_RANGES[field];
  return range(field, value, least, most, unit);
}

/** A mesh brings its own sizes and its own thickness; what is given beside them would contradict it. */
function meshProblems({ piece, cooling }: CastingInput, mesh: MeshBody | undefined): Problem[] {
  const { sizeMm, thickestMm } = piece;
  if (mesh === undefined) {
    return [{ code: "mesh-not-read", field: "piece.file", value: undefined, allowed: "an STL or OBJ file that was read", message: "piece.shape is mesh, but no mesh was read for it: send its STL or OBJ file, or describe the piece as a slab, brick, cylinder or ball." }];
  }
  const problems: Problem[] = [];
  if (sizeMm !== undefined) problems.push({ code: "not-beside-mesh", field: "piece.sizeMm", value: sizeMm, allowed: "left out", message: "piece.sizeMm stands beside a mesh, which brings its own sizes; leave it out." });
  if (thickestMm !== undefined) problems.push({ code: "not-beside-mesh", field: "piece.thickestMm", value: thickestMm, allowed: "left out", message: "piece.thickestMm stands beside a mesh, whose thickness is worked out; leave it out." });
  problems.push(...meshSizeProblems(mesh));
  if (cooling === "one-face" && mesh.openFace === null) {
    problems.push({ code: "no-open-face", field: "cooling", value: cooling, allowed: "all-round", message: "cooling is one-face, but this mesh has no level face on top through which all of it could cool. Turn another side up, or let it cool all round." });
  }
  return problems;
}

function meshSizeProblems(mesh: MeshBody): Problem[] {
  const [least, most, unit] = INPUT_RANGES["piece.sizeMm"];
  const sides = mesh.boxM.flatMap((side, at) => range(`piece.file, side ${at + 1} of its box,`, Number(millimetres(side).toPrecision(6)), least, most, unit));
  const thickMm = Math.round(millimetres(Math.sqrt(8 * mesh.maxM2)));
  if (thickMm > MOST_THICK_MM) sides.push({ code: "out-of-range", field: "piece.file", value: thickMm, allowed: `up to ${MOST_THICK_MM} mm thick`, message: `The mesh is as thick as a slab of ${thickMm} mm; no slow cooling is worked out above ${MOST_THICK_MM} mm. Was its file drawn in another unit?` });
  return sides.map((problem) => ({ ...problem, field: "piece.file" }));
}

function pieceProblems(input: CastingInput, mesh?: MeshBody): Problem[] {
  const { piece } = input;
  const weights = [
    ...within("piece.waxKg", piece.waxKg),
    ...within("piece.waxDensityKgM3", piece.waxDensityKgM3),
    ...within("piece.thickestMm", piece.thickestMm),
  ];
  if (piece.shape === "mesh") {
    return [...meshProblems(input, mesh), ...weights];
  }
  const words = SIZE_WORDS[piece.shape];
  const sizes = piece.sizeMm ?? [];
  if (sizes.length !== words.length) {
    return [{
      code: "wrong-size", field: "piece.sizeMm", value: piece.sizeMm, allowed: `${words.length} lengths in mm: ${words.join(", ")}`,
      message: `piece.sizeMm needs ${words.length === 1 ? "one length" : `${words.length} lengths`} for a ${piece.shape}: ${words.join(", ")}, in mm. Without a size the cooling cannot be worked out, whatever the wax weighs.`,
    }, ...weights];
  }
  const out = sizes.flatMap((size, at) => range(`piece.sizeMm.${at}`, size, ...INPUT_RANGES["piece.sizeMm"]));
  return [...out, ...(out.length === 0 ? thicknessProblems(sizes, piece.thickestMm) : []), ...weights];
}

function thicknessProblems(sizes: readonly number[], thickestMm: number | undefined): Problem[] {
  const smallest = Math.min(...sizes);
  const problems: Problem[] = [];
  if (smallest > MOST_THICK_MM) {
    problems.push({ code: "out-of-range", field: "piece.sizeMm", value: smallest, allowed: `up to ${MOST_THICK_MM} mm thick`, message: `The piece is ${smallest} mm at its thinnest side; no slow cooling is worked out above ${MOST_THICK_MM} mm.` });
  }
  const largest = Math.max(...sizes);
  // A slab's one size is its thickness, so only the other shapes bound what can be thickest.
  if (thickestMm !== undefined && sizes.length > 1 && thickestMm > largest) {
    problems.push({ code: "thicker-than-piece", field: "piece.thickestMm", value: thickestMm, allowed: `up to ${largest} mm`, message: `piece.thickestMm is ${thickestMm} mm; the piece itself measures ${largest} mm at most.` });
  }
  return problems;
}

function mouldProblems({ mould }: CastingInput): Problem[] {
  if (mould === undefined) return [];
  const [plaster, silica, water] = mould.plasterSilicaWater;
  const parts = [
    ...within("mould.plasterSilicaWater.0", plaster),
    ...within("mould.plasterSilicaWater.1", silica),
    ...within("mould.plasterSilicaWater.2", water),
  ];
  const ratio = water / (plaster + silica);
  if (parts.length === 0 && !(ratio >= 0.3 && ratio <= 1)) {
    parts.push({ code: "out-of-range", field: "mould.plasterSilicaWater", value: mould.plasterSilicaWater, allowed: "0.3 to 1 part of water per part of powder", message: `mould.plasterSilicaWater has ${ratio.toFixed(2)} parts of water per part of powder; 0.3 to 1 sets and can be poured.` });
  }
  return [...within("mould.wallMm", mould.wallMm), ...parts];
}

function feederProblems({ feeder }: CastingInput): Problem[] {
  if (feeder === undefined) return [];
  return [
    ...within("feeder.diameterMm", feeder.diameterMm),
    ...within("feeder.lengthMm", feeder.lengthMm),
    ...within("feeder.waxKg", feeder.waxKg),
  ];
}

function kilnProblems(kiln: KilnForPlan): Problem[] {
  return [
    ...kiln.insideMm.flatMap((size, at) => range(`kiln.insideMm.${at}`, size, 100, 5000, "mm")),
    ...range("kiln.powerKw", kiln.powerKw, 0.5, 200, "kW"),
    ...range("kiln.lossWPerK", kiln.lossWPerK, 0.2, 100, "W/K"),
    ...range("kiln.heatCapacityKJPerK", kiln.heatCapacityKJPerK, 1, 5000, "kJ/K"),
    ...range("kiln.maxC", kiln.maxC, 400, 1400, "°C"),
    ...range("kiln.controllerSegments", kiln.controllerSegments, 6, 500, "segments"),
    ...range("kiln.minRateKPerH", kiln.minRateKPerH, 0.01, 100, "K/h"),
    ...range("kiln.margin.factor", kiln.margin?.factor, 0, MOST_MARGIN, "times the usual margin"),
  ];
}

function stressProblems({ stress }: CastingInput): Problem[] {
  if (stress === "careful") return [];
  return [
    ...within("stress.permanentMPa", stress.permanentMPa),
    ...within("stress.passingMPa", stress.passingMPa),
  ];
}
