import { parseArgs } from "node:util";
import { z } from "zod";
import { problemsOf } from "@/lib/contracts/problems";
import { runOrdeal } from "./ordeal/run-ordeal";

const USAGE = "Usage: npm run ordeal -- [--seconds 5 to 86400] [--seed 1 to 2147483646]\n";

const whole = () => z.coerce.number({ error: ({ code }) => (code === "invalid_type" ? "it must be a whole number" : undefined) });
const Asked = z.object({
  seconds: whole().int().min(5).max(86_400).default(180),
  seed: whole().int().min(1).max(2_147_483_646).default(() => 1 + (Date.now() % 1_000_000)),
});
type Given = { readonly seconds?: string | undefined; readonly seed?: string | undefined };

/** `npm run ordeal -- --seconds 600 --seed 7`: ends with 0 when everything held, with 1 when anything broke, with 2 when it was asked wrongly. */
async function main(): Promise<void> {
  const given = options();
  if (typeof given === "string") return askedWrongly([given]);
  const asked = Asked.safeParse(given);
  if (!asked.success) return askedWrongly(problemsOf(asked.error, given).map(({ field = "", value, message }) => `--${field} ${String(value)}: ${message}`));
  const { faults, acknowledged } = await runOrdeal({ ...asked.data, say: (line) => process.stdout.write(`${line}\n`) });
  const idle = acknowledged === 0;
  process.stdout.write(faults.length === 0 && !idle ? "Everything held.\n" : idle ? "Nothing was acknowledged, so nothing is proved.\n" : `${faults.length} faults.\n`);
  process.exitCode = faults.length === 0 && !idle ? 0 : 1;
}

/** What was given, or what of it cannot be read. */
function options(): Given | string {
  try {
    return parseArgs({ options: { seconds: { type: "string" }, seed: { type: "string" } } }).values;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function askedWrongly(why: readonly string[]): void {
  process.stderr.write(`${why.join("\n")}\n${USAGE}`);
  process.exitCode = 2;
}

await main();
