import { expect, it } from "vitest";
import { runOrdeal } from "@/lib/cli/ordeal/run-ordeal";

/** The same as `npm run ordeal`, for as long as a test may take: what it finds depends on no clock. */
it("survives a short ordeal: killed processes, a killed database, cut connections and repeated requests", async () => {
  const said: string[] = [];
  const { faults, acknowledged, blows } = await runOrdeal({ seconds: 12, seed: 5, say: (line) => said.push(line) });
  expect(faults, said.join("\n")).toEqual([]);
  expect(acknowledged).toBeGreaterThan(0);
  expect(blows).toBeGreaterThan(0);
}, 120_000);
