import { readdirSync, readFileSync } from "node:fs";

/** Seconds of processor time since each process began. */
export type Computing = { readonly database: number; readonly web: number; readonly clients: number };

/** Linux counts in hundredths (USER_HZ, proc(5)). */
const TICKS_A_SECOND = 100;

type Process = { readonly pid: number; readonly parent: number; readonly seconds: number };

/**
 * What this process, its database and the web servers it began have computed; undefined where the system does not say
 * (anything but Linux). Unlike a rate it hardly changes with what else the machine does.
 * @param backend any backend of the database (`pg_backend_pid()`)
 */
export function computing(backend: number): Computing | undefined {
  const all = processes();
  const database = all.get(backend)?.parent;
  if (database === undefined) return undefined;
  const sums = { database: 0, web: 0, clients: 0 };
  for (const one of all.values()) {
    if (one.pid === process.pid) sums.clients += one.seconds;
    else if (isUnder(all, one, database)) sums.database += one.seconds;
    else if (isUnder(all, one, process.pid)) sums.web += one.seconds;
  }
  return sums;
}

function isUnder(all: ReadonlyMap<number, Process>, one: Process, ancestor: number): boolean {
  for (let at: Process | undefined = one; at !== undefined; at = all.get(at.parent)) if (at.pid === ancestor) return true;
  return false;
}

function processes(): ReadonlyMap<number, Process> {
  const all = new Map<number, Process>();
  if (process.platform !== "linux") return all;
  for (const name of readdirSync("/proc")) {
    if (!/^\d+$/.test(name)) continue;
    const one = processOf(Number(name));
    if (one !== undefined) all.set(one.pid, one);
  }
  return all;
}

/** Its own time and that of children it has seen end; undefined when it has ended itself meanwhile. */
function processOf(pid: number): Process | undefined {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    // The name stands in brackets and may hold anything; fields are counted from behind it.
    const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ").map(Number);
    const ticks = [11, 12, 13, 14].reduce((sum, at) => sum + (fields[at] ?? 0), 0);
    return { pid, parent: fields[1] ?? 0, seconds: ticks / TICKS_A_SECOND };
  } catch {
    return undefined;
  }
}
