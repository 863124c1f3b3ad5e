import { loadavg } from "node:os";

/** Prints one line, with the machine's load beside it: seconds on a busy machine say less. */
export function say(name: string, value: string): void {
  process.stdout.write(`${name}: ${value} [load ${(loadavg()[0] ?? 0).toFixed(1)}]\n`);
}

/** Seconds this process has computed so far, its threads included. */
export function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

/** What some work took on the wall and in computing. */
export async function timed<T>(work: () => T | Promise<T>): Promise<{ readonly value: T; readonly seconds: number; readonly cpu: number }> {
  const [start, cpu] = [performance.now(), cpuSeconds()];
  const value = await work();
  return { value, seconds: (performance.now() - start) / 1000, cpu: cpuSeconds() - cpu };
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

/** How far a cost lies above the least, in per cent. */
export function above(cost: number, least: number): number {
  return least > 0 ? (100 * (cost - least)) / least : cost > 1e-6 ? Infinity : 0;
}
