/** `npm run bench` prints everything but what takes very long, `npm run bench -- booking` one part; a `name: value unit` a line. */
export {};

const PARTS: Readonly<Record<string, () => Promise<unknown>>> = {
  calculation: () => import("./bench/calculation"),
  "find-time": async () => (await import("./bench/find-time")).benchFindTime(),
  booking: async () => (await import("./bench/booking")).benchBooking(),
  settling: async () => (await import("./bench/settling")).benchSettling(),
  "settling-long": async () => (await import("./bench/settling")).benchSettlingLong(),
};

/** Only when asked for by name. */
const LONG: readonly string[] = ["settling-long"];

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !Object.hasOwn(PARTS, name));
if (unknown.length > 0) {
  process.stderr.write(`There is no bench "${unknown.join('", "')}"; there are ${Object.keys(PARTS).join(", ")}.\n`);
  process.exitCode = 2;
} else {
  for (const [name, run] of Object.entries(PARTS)) if (asked.length === 0 ? !LONG.includes(name) : asked.includes(name)) await run();
}
