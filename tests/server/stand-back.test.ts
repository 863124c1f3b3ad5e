import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { startWorker } from "@/lib/server/settling/start-worker";

/** How far each thread of this process stands back; the nineteenth field of proc(5)'s stat. */
function niceOfThreads(): readonly number[] {
  return readdirSync("/proc/self/task").map((thread) => {
    const stat = readFileSync(`/proc/self/task/${thread}/stat`, "utf8");
    return Number(stat.slice(stat.lastIndexOf(")") + 2).split(" ")[16]);
  });
}

const own = (): number => Number(readFileSync(`/proc/self/task/${process.pid}/stat`, "utf8").replace(/^.*\) /s, "").split(" ")[16]);

describe.skipIf(process.platform !== "linux")("a thread of a settlement", () => {
  it("stands back behind the thread that answers requests, which stays where it is", async () => {
    const [before, threads] = [own(), niceOfThreads().filter((nice) => nice > own()).length];
    const worker = startWorker();
    await expect.poll(() => niceOfThreads().filter((nice) => nice > before).length, { timeout: 20_000 }).toBeGreaterThan(threads);
    expect(own()).toBe(before);
    await worker.terminate();
  });
});
