import { parentPort, workerData } from "node:worker_threads";
import { solveMesh, type MeshFile } from "./solve-mesh";
import type { MeshAnswer } from "./run-mesh";

/** Often enough for a progress bar. */
const TELL_EVERY_MS = 150;
const say = (answer: MeshAnswer): void => parentPort?.postMessage(answer);

let toldAt = 0;
let toldStep = "";
const outcome = solveMesh(workerData as MeshFile, (step, percent) => {
  if (step === toldStep && performance.now() - toldAt < TELL_EVERY_MS) return;
  [toldAt, toldStep] = [performance.now(), step];
  say({ step, percent });
});
say({ outcome });
