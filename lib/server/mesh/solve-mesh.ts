import { ok, type Outcome } from "@/lib/domain/refusal";
import { drawnSurface } from "@/lib/domain/shape/mesh/drawn-surface";
import { CELLS_ACROSS, solvedBody, type MeshBody, type MeshStep } from "@/lib/domain/shape/mesh/mesh-body";
import { notOneBody } from "@/lib/domain/shape/mesh/parts";
import { meshFacts, triangleCount } from "@/lib/domain/shape/mesh/triangle-mesh";
import { inMetres, type MeshUnit, type MeshUp } from "@/lib/domain/shape/mesh/turned";
import { packDrawing } from "@/lib/contracts/mesh-drawing";
import { readMeshFile } from "./read-mesh-file";

export type ReadingStep = "reading" | "checking" | MeshStep;

/** A file that was sent, and how it is to be taken. */
export type MeshFile = { readonly fileName: string; readonly bytes: Uint8Array; readonly unit: MeshUnit; readonly up: MeshUp };

/** Everything that is kept of a mesh. */
export type SolvedMesh = { readonly body: MeshBody; readonly triangles: number; readonly drawing: Uint8Array };

/**
 * Reads a file, checks that it encloses one body, solves it, and thins its surface for drawing. Takes
 * seconds: not for the thread that answers requests.
 */
export function solveMesh({ fileName, bytes, unit, up }: MeshFile, tell: (step: ReadingStep, percent: number) => void): Outcome<SolvedMesh> {
  tell("reading", 0);
  const read = readMeshFile(fileName, bytes);
  if (!read.ok) return read;
  const mesh = inMetres(read.value, unit, up);
  tell("checking", 0);
  const facts = meshFacts(mesh);
  if (!facts.ok) return facts;
  const several = notOneBody(mesh, facts.value);
  if (several !== undefined) return several;
  const body = solvedBody(mesh, facts.value, CELLS_ACROSS, (step, share) => tell(step, Math.round(100 * share)));
  if (!body.ok) return body;
  return ok({ body: body.value, triangles: triangleCount(mesh), drawing: packDrawing(drawnSurface(mesh)) });
}
