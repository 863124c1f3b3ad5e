import { readFileSync } from "node:fs";
import { uptime } from "node:os";

/** Parts of a second in which Linux counts the starts of processes, on every machine Node runs on. */
const TICKS = 100;
/** npm, a shell, this process: nobody stands further up. */
const MOST_PARENTS = 3;

/**
 * When the command was given, milliseconds since 1970: the start of the npm that runs this process where the system
 * tells it (Linux), for that takes a third of a second and whoever waits counts it; else the start of this process.
 */
export function commandGivenAtMs(): number {
  const own = performance.timeOrigin;
  try {
    let pid = process.ppid;
    for (let parent = 0; parent < MOST_PARENTS; parent++) {
      const { name, parentPid, startedAtMs } = processOf(pid);
      // Ticks are coarse; what is told can lie a little after our own start, never long before npm's.
      if (name.startsWith("npm")) return Math.min(own, startedAtMs);
      pid = parentPid;
    }
  } catch {
    // No such files on this system: what cannot be known is not counted.
  }
  return own;
}

/** Fields of /proc/<pid>/stat (man 5 proc): the name stands in brackets and may hold anything. */
function processOf(pid: number): { readonly name: string; readonly parentPid: number; readonly startedAtMs: number } {
  const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
  const end = stat.lastIndexOf(")");
  const fields = stat.slice(end + 2).split(" ");
  const bootedAtMs = Date.now() - uptime() * 1000;
  return { name: stat.slice(stat.indexOf("(") + 1, end), parentPid: Number(fields[1]), startedAtMs: bootedAtMs + (Number(fields[19]) / TICKS) * 1000 };
}
