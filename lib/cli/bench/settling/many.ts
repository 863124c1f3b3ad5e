import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { z } from "zod";
import { crowdedSeason } from "../world/crowded-season";
import { above, say } from "./say";

const SECONDS = 120;
const LOOK_MS = 250;
const answer = z.looseObject({ cost: z.number(), bound: z.number(), seconds: z.number(), placements: z.array(z.unknown()) });

/** Two hundred kilns and two thousand asks, most of them booked, by the command in a process of its own. */
export async function benchMany(): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "lehrbook-bench-"));
  try {
    const file = path.join(folder, "many.json");
    writeFileSync(file, JSON.stringify({ days: crowdedSeason({ kilns: 200, asks: 2_000, seed: 1, replan: true, alike: 10 }), budgetSeconds: SECONDS }));
    const { text, peakMb, seconds } = await settled(file);
    const { cost, bound } = answer.parse(JSON.parse(text));
    say("200 kilns, 2,000 asks", `${cost.toFixed(1)}, at most ${above(cost, bound).toFixed(2)} % from the best (goal 3.5), ${seconds.toFixed(1)} s (goal 120), most memory ${peakMb === 0 ? "unknown" : `${peakMb.toFixed(0)} MB`} (goal 300)`);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** What the command prints, how long it took, and the most memory it held, where the system tells (Linux). */
function settled(file: string): Promise<{ readonly text: string; readonly peakMb: number; readonly seconds: number }> {
  const start = performance.now();
  const child = spawn(process.execPath, ["--import", "tsx", path.join("lib", "cli", "settle.ts"), file], { stdio: ["ignore", "pipe", "inherit"] });
  let text = "";
  let peakMb = 0;
  child.stdout.setEncoding("utf8").on("data", (part: string) => (text += part));
  const looking = setInterval(() => (peakMb = Math.max(peakMb, mostMemoryMb(child.pid))), LOOK_MS);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", () => {
      clearInterval(looking);
      resolve({ text, peakMb, seconds: (performance.now() - start) / 1000 });
    });
  });
}

function mostMemoryMb(pid: number | undefined): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))?.[1] ?? 0) / 1024;
  } catch {
    return 0;
  }
}
