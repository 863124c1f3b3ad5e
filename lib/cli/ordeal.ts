import { parseArgs } from "node:util";
import { z } from "zod";
import { runOrdeal } from "./ordeal/run-ordeal";

const Asked = z.object({
  seconds: z.coerce.number().int().min(5).max(86_400).default(180),
  seed: z.coerce.number().int().min(1).max(2_147_483_646).default(() => 1 + (Date.now() % 1_000_000)),
});

/** `npm run ordeal -- --seconds 600 --seed 7`: ends with 0 when everything held, with 1 when anything broke. */
const { values } = parseArgs({ options: { seconds: { type: "string" }, seed: { type: "string" } } });
const asked = Asked.safeParse(values);
if (!asked.success) {
  process.stderr.write("Usage: npm run ordeal -- [--seconds 5 or more] [--seed 1 or more]\n");
  process.exitCode = 2;
} else {
  const { faults, acknowledged } = await runOrdeal({ ...asked.data, say: (line) => process.stdout.write(`${line}\n`) });
  const idle = acknowledged === 0;
  process.stdout.write(faults.length === 0 && !idle ? "Everything held.\n" : idle ? "Nothing was acknowledged, so nothing is proved.\n" : `${faults.length} faults.\n`);
  process.exitCode = faults.length === 0 && !idle ? 0 : 1;
}
