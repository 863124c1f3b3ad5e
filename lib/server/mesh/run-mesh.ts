import path from "node:path";
import { Worker } from "node:worker_threads";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import type { MeshFile, ReadingStep, SolvedMesh } from "./solve-mesh";

export type MeshTold = { readonly step: ReadingStep; readonly percent: number };
export type MeshAnswer = MeshTold | { readonly outcome: Outcome<SolvedMesh> };

/** The largest file that is taken needs less than half of either; what needs more is not what it seems. */
const LONGEST_MS = 120_000;
const MOST_MEMORY_MB = 1536;

/** Run from its source beside a built server too; a bundler would take the whole of tsx along. */
const PROGRAM = [process.cwd(), "lib", "server", "mesh", "mesh-worker.mjs"].join(path.sep);

/** Reads a mesh in a thread of its own, so that requests are answered meanwhile. Never throws. */
export function runMesh(file: MeshFile, tell: (told: MeshTold) => void): Promise<Outcome<SolvedMesh>> {
  return new Promise((done) => {
    // Neither the parent's options nor its environment: the thread needs no secret and no database.
    const worker = new Worker(/* turbopackIgnore: true */ PROGRAM, {
      workerData: file, execArgv: [], env: {}, resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB },
    });
    const end = (outcome: Outcome<SolvedMesh>): void => {
      clearTimeout(tooLong);
      void worker.terminate();
      done(outcome);
    };
    const tooLong = setTimeout(() => end(gaveUp(`it was not read within ${LONGEST_MS / 1000} seconds`)), LONGEST_MS);
    worker.on("message", (answer: MeshAnswer) => ("outcome" in answer ? end(answer.outcome) : tell(answer)));
    worker.on("error", (error) => end(gaveUp(error.message)));
    worker.on("exit", () => end(gaveUp("its reading ended without an answer")));
  });
}

function gaveUp(why: string): Outcome<never> {
  return refuse({ code: "mesh-too-much", field: "piece.file", message: `The mesh is more than this server can read: ${why}. Reduce it to some 200 000 triangles and send it again.` });
}
