import { numberText } from "@/app/_components/number-text";
import type { MeshProgress, ReadMesh } from "@/lib/contracts/mesh";
import type { Cooling } from "@/lib/domain/firing/casting-input";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { MESH_UNITS, type MeshUnit, type MeshUp } from "@/lib/domain/shape/mesh/turned";
import { litres, millimetres } from "@/lib/domain/units";

export const UNIT_WORDS: Readonly<Record<MeshUnit, string>> = { mm: "millimetres", cm: "centimetres", m: "metres", inch: "inches" };
export const UP_WORDS: Readonly<Record<MeshUp, string>> = {
  "+z": "z up (most scans)", "-z": "z down", "+y": "y up (many modellers)", "-y": "y down", "+x": "x up", "-x": "x down",
};

/** What was cast by hand lies between these at its longest, mm; outside, another unit is offered (common practice, no source). */
const USUAL_MM = [30, 1500] as const;
const MM: Readonly<Record<MeshUnit, number>> = { mm: 1, cm: 10, m: 1000, inch: 25.4 };

export function boxText({ boxM }: Pick<MeshBody, "boxM">): string {
  return `${boxM.map((side) => numberText(millimetres(side), millimetres(side) < 10 ? 1 : 0)).join(" × ")} mm`;
}

/** Asks back when the box is of no usual size, and says in which units it would be; nothing when it is one. */
export function unitDoubt({ body, unit }: Pick<ReadMesh, "body" | "unit">): string | undefined {
  const longest = millimetres(Math.max(...body.boxM));
  const usual = (mm: number): boolean => mm >= USUAL_MM[0] && mm <= USUAL_MM[1];
  if (usual(longest)) return undefined;
  const others = MESH_UNITS.filter((other) => other !== unit && usual((longest * MM[other]) / MM[unit]));
  const meant = others.map((other) => `in ${UNIT_WORDS[other]} it would be ${numberText((longest * MM[other]) / MM[unit])} mm`).join(", ");
  return `${numberText(longest, longest < 10 ? 1 : 0)} mm at its longest is ${longest < USUAL_MM[0] ? "very small" : "very large"} for a casting.${meant === "" ? "" : ` Was it drawn in another unit? ${capital(meant)}.`}`;
}

/** What the cooling goes by: all round, or through the open upper side where that could be worked out. */
export function cooledThrough(body: MeshBody, cooling: string): Pick<MeshBody, "maxM2" | "thickestAtM"> {
  return cooling === ("one-face" satisfies Cooling) && body.openFace !== null ? body.openFace : body;
}

export function slabEquivalentMm(body: MeshBody, cooling: string): number {
  return millimetres(Math.sqrt(8 * cooledThrough(body, cooling).maxM2));
}

/** "60 mm from the left, 15 mm from the front and 10 mm above the foot" */
export function thickPlace(body: MeshBody, cooling: string): string {
  const [x, y, z] = cooledThrough(body, cooling).thickestAtM.map((along) => numberText(millimetres(along)));
  return `${x} mm from the left (x), ${y} mm from the front (y) and ${z} mm above the foot of its box`;
}

export function factsOf(body: MeshBody, cooling: string): readonly { readonly what: string; readonly amount: string }[] {
  const volumeL = litres(body.volumeM3);
  return [
    { what: "Box, width × depth × height", amount: boxText(body) },
    { what: "Volume", amount: `${numberText(volumeL, volumeL < 10 ? 2 : 1)} L` },
    { what: "Surface", amount: `${numberText(body.surfaceM2 * 1e4)} cm²` },
    { what: "Cools like a slab of", amount: `${numberText(slabEquivalentMm(body, cooling))} mm` },
  ];
}

const STEP_WORDS = {
  waiting: "In line to be read",
  reading: "Reading the file",
  checking: "Checking that it is closed",
  filling: "Filling it with cells",
  solving: "Working out how it cools",
} as const;

export function stepText({ state, percent }: Extract<MeshProgress, { percent: number }>): string {
  return state === "solving" ? `${STEP_WORDS[state]}, ${percent} %` : STEP_WORDS[state];
}

function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
