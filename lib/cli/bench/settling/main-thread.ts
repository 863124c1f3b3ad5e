import { existsSync, readFileSync } from "node:fs";

/**
 * Begins to watch how long the main thread computes at a stretch, between two turns of its loop; the function it gives
 * ends that and says the longest, in milliseconds. What the scheduler takes away on a busy machine is not in it.
 * Undefined where the system does not count a thread's time (Linux does, in nanoseconds).
 */
export function busyMs(): () => number | undefined {
  const file = `/proc/self/task/${process.pid}/schedstat`;
  if (!existsSync(file)) return () => undefined;
  const ran = (): number => Number(readFileSync(file, "utf8").split(" ")[0]) / 1e6;
  let [longest, before] = [0, ran()];
  const timer = setInterval(() => {
    const now = ran();
    longest = Math.max(longest, now - before);
    before = now;
  }, 1);
  return () => {
    clearInterval(timer);
    return longest;
  };
}
