import { cp, mkdir, mkdtemp, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { root } from "@/lib/cli/bootstrap.mjs";
import { keepJobsDone, nextWait } from "@/lib/cli/start/job-worker";

let place = "";
let stop: (() => Promise<void>) | undefined;
let lines: string[] = [];

/** In place of what does the jobs: says who it is, and ends when it is told to. */
const STAND_IN = `
process.on("SIGTERM", () => { console.log("told to end"); process.exit(0); });
setInterval(() => undefined, 1_000);
console.log(\`at work \${process.pid} for \${process.env["DATABASE_URL"]}\`);
`;

beforeEach(async () => {
  place = await mkdtemp(path.join(tmpdir(), "jobs-"));
  await mkdir(path.join(place, "lib", "cli", "start"), { recursive: true });
  await cp(path.join(root, "lib/cli/start/follow-parent.mjs"), path.join(place, "lib/cli/start/follow-parent.mjs"));
  await writeFile(path.join(place, "lib/cli/work.ts"), STAND_IN);
  await writeFile(path.join(place, "package.json"), '{ "type": "module" }');
  await symlink(path.join(root, "node_modules"), path.join(place, "node_modules"));
  lines = [];
});
afterEach(async () => {
  await stop?.();
  stop = undefined;
  await rm(place, { recursive: true, force: true });
});

const pids = () => lines.flatMap((line) => /^at work (\d+) for postgres:\/\/here$/.exec(line)?.[1] ?? []).map(Number);
const atWork = (count: number) => vi.waitFor(() => expect(pids()).toHaveLength(count), { timeout: 20_000, interval: 50 });
const lives = (pid: number) => {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
};

describe("what does the jobs beside the web server", () => {
  it("is started again when it is killed, says so, and stays ended once it is stopped", async () => {
    stop = keepJobsDone({ root: place, environment: { ...process.env, DATABASE_URL: "postgres://here" }, onLine: (line) => lines.push(line) });
    await atWork(1);
    process.kill(pids()[0] ?? 0, "SIGKILL");
    await atWork(2);
    const [first, second] = pids();
    expect(second).not.toBe(first);
    expect(lines.filter((line) => line.startsWith("What sends the mail"))).toEqual(["What sends the mail ended by itself; it is started again in 1 s."]);
    process.kill(second ?? 0, "SIGKILL");
    await vi.waitFor(() => expect(lines.at(-1)).toBe("What sends the mail ended by itself; it is started again in 2 s."), { timeout: 20_000 });
    await atWork(3);
    await stop();
    expect(lines.at(-1)).toBe("told to end");
    expect(pids().map(lives)).toEqual([false, false, false]);
    expect(pids()).toHaveLength(3);
  });

  it("is not started after all when it is stopped while it waits to be", async () => {
    stop = keepJobsDone({ root: place, environment: { ...process.env, DATABASE_URL: "postgres://here" }, onLine: (line) => lines.push(line) });
    await atWork(1);
    process.kill(pids()[0] ?? 0, "SIGKILL");
    await vi.waitFor(() => expect(lines.at(-1)).toMatch(/^What sends the mail/), { timeout: 20_000 });
    await stop();
    // Longer than the second after which it would be.
    await new Promise((later) => setTimeout(later, 1_500));
    expect(pids()).toHaveLength(1);
  });
});

describe("the wait before it is started again", () => {
  it("doubles from a second up to a minute, and is a second again after one that ran for longer than a minute", () => {
    const waits = Array.from({ length: 8 }).reduce<number[]>((all) => [...all, nextWait(all.at(-1), 60_000)], []);
    expect(waits).toEqual([1_000, 2_000, 4_000, 8_000, 16_000, 32_000, 60_000, 60_000]);
    expect(nextWait(60_000, 60_001)).toBe(1_000);
  });
});
