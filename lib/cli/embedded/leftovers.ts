import { readFile, rm } from "node:fs/promises";
import path from "node:path";

const WAIT_MS = 20_000;

/**
 * Puts right what a start that was killed left behind: stops its server if that still runs on this data folder, and
 * removes the pid file if the number now belongs to something else. Call only while holding the start lock.
 */
export async function clearLeftovers(dataFolder: string): Promise<void> {
  const pidFile = path.join(dataFolder, "postmaster.pid");
  const lines = (await readFile(pidFile, "utf8").catch(() => "")).split("\n");
  const pid = Number(lines[0]);
  if (!(pid > 1) || !isAlive(pid)) return;
  if (await isServerOf(pid, dataFolder)) await endServer(pid);
  else await rm(pidFile, { force: true });
}

export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && "code" in error && error.code === "EPERM";
  }
}

/** Reads the command line where the system shows it; elsewhere Postgres' own check has to do. */
async function isServerOf(pid: number, dataFolder: string): Promise<boolean> {
  const command = await readFile(`/proc/${pid}/cmdline`, "utf8").catch(() => undefined);
  if (command === undefined) return true;
  const words = command.split("\0");
  return (words[0] ?? "").includes("postgres") && words.includes(dataFolder);
}

async function endServer(pid: number): Promise<void> {
  process.kill(pid, "SIGINT");
  for (const until = Date.now() + WAIT_MS; isAlive(pid); ) {
    if (Date.now() > until) throw new Error(`An earlier PostgreSQL (process ${pid}) does not stop; end it and start again.`);
    await new Promise((done) => setTimeout(done, 100));
  }
}
