import { setPriority } from "node:os";
import { register } from "tsx/esm/api";

/** Of nineteen: whoever waits for an answer goes first, and little is lost where nobody waits. */
const NICE = 5;

// On Linux each thread has a priority of its own (setpriority(2), "C library/kernel differences"); elsewhere this would
// put the whole server behind, so nothing is done there. Where a sandbox forbids it the thread goes on as it is.
if (process.platform === "linux") {
  try {
    setPriority(0, NICE);
  } catch {
    // As it is.
  }
}

/** Lets a thread read TypeScript, whatever its parent was started by, and begins its work. */
register();
await import("./settle-worker.ts");
