import { refuse, type Refusal } from "@/lib/domain/refusal";
import { logFault } from "@/lib/server/log";
import { finishMesh, progressMesh, touchMeshes } from "@/lib/server/rows/mesh-progress";
import type { Who } from "@/lib/server/who";
import { runMesh } from "./run-mesh";
import type { MeshFile } from "./solve-mesh";

export type MeshJob = MeshFile & { readonly who: Who; readonly meshId: string };

/** Files wait in memory; this many of the largest are what a small server can spare. */
const MOST_WAITING = 6;
/** Well within the silence after which a reader is taken for dead. */
const ALIVE_EVERY_MS = 5_000;

type Queue = { waiting: MeshJob[]; current: MeshJob | null };
// Next loads routes apart from each other and reloads them while developing; there is one queue for the process.
const kept = globalThis as typeof globalThis & { lehrbookMeshes?: Queue };

function queue(): Queue {
  kept.lehrbookMeshes ??= { waiting: [], current: null };
  return kept.lehrbookMeshes;
}

/** Asked before a file is taken in. */
export function queueIsFull(): Refusal | undefined {
  if (queue().waiting.length < MOST_WAITING) return undefined;
  return refuse({ code: "busy", field: "piece.file", message: `${MOST_WAITING} other meshes are waiting to be read. Send this one again in a minute; what you typed stays here.` });
}

/** Puts a mesh in line; one at a time is read. */
export function queueMesh(job: MeshJob): void {
  queue().waiting.push(job);
  if (queue().current === null) void workThrough(queue());
}

async function workThrough(line: Queue): Promise<void> {
  const alive = setInterval(() => void sayAlive(line), ALIVE_EVERY_MS);
  alive.unref();
  for (let job = line.waiting.shift(); job !== undefined; job = line.waiting.shift()) {
    line.current = job;
    await readOne(job).catch((error: unknown) => logFault("read-mesh", error));
  }
  line.current = null;
  clearInterval(alive);
}

async function sayAlive({ waiting, current }: Queue): Promise<void> {
  const all = current === null ? waiting : [current, ...waiting];
  await touchMeshes(all).catch((error: unknown) => logFault("touch-meshes", error));
}

/** Progress is written when the last one is, and left out in between. */
async function readOne(job: MeshJob): Promise<void> {
  let writing: Promise<void> | null = null;
  const outcome = await runMesh({ fileName: job.fileName, bytes: job.bytes, unit: job.unit, up: job.up }, (told) => {
    writing ??= progressMesh(job, told)
      .catch((error: unknown) => void logFault("progress-mesh", error))
      .finally(() => (writing = null));
  });
  await writing;
  await finishMesh(job, outcome);
}
