// npm test: everything, from a fresh clone. --only types,lint,domain,zones,server,e2e runs some of it.
import process from "node:process";
import { checkNode, generateClient, installPackages, quietEnvironment, root, say, sentenceFor, stopSteps, whenOrphaned } from "./bootstrap.mjs";

process.umask(0o022);
process.chdir(root);
Object.assign(process.env, quietEnvironment);

function stop() {
  stopSteps();
  setTimeout(() => process.exit(130), 5_000).unref();
}
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, stop);
whenOrphaned(stop);
process.stdout.on("error", () => undefined);

function wanted(all) {
  const at = process.argv.findIndex((word) => word === "--only" || word.startsWith("--only="));
  if (at < 0) return all;
  const list = process.argv[at].includes("=") ? process.argv[at].split("=")[1] : process.argv[at + 1];
  const names = (list ?? "").split(",");
  const unknown = names.find((name) => !all.includes(name));
  if (unknown !== undefined) throw new Error(`--only takes ${all.join(", ")}, separated by commas; "${unknown}" is none of them.`);
  return all.filter((name) => names.includes(name));
}

async function runStep(name, { what, run }) {
  const began = Date.now();
  const counts = await run().catch((error) => ({ passed: 0, failed: 1, skipped: 0, faults: [sentenceFor(error)] }));
  const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : "";
  say(`${counts.failed === 0 ? "ok    " : "FAILED"} ${name}: ${counts.passed} passed, ${counts.failed} failed${skipped} (${what}; ${Math.round((Date.now() - began) / 1000)} s)`);
  for (const fault of counts.faults) say(`    × ${fault}`);
  return counts;
}

async function main() {
  checkNode();
  await installPackages();
  await generateClient();
  const { STEPS } = await import("./test/steps.mjs");
  const total = { passed: 0, failed: 0 };
  for (const name of wanted(Object.keys(STEPS))) {
    const counts = await runStep(name, STEPS[name]);
    total.passed += counts.passed;
    total.failed += counts.failed;
  }
  return total;
}

const total = await main().catch((error) => {
  say(sentenceFor(error));
  return { passed: 0, failed: 1 };
});
say(`${total.passed} passed, ${total.failed} failed`);
process.exit(total.failed === 0 && total.passed > 0 ? 0 : 1);
