// The steps of npm test, in order. Each answers with counts; one that could not run counts as one failure.
import { mkdirSync, rmSync } from "node:fs";
import path from "node:path";
import { findBrowser } from "../browser.mjs";
import { root, runLogged, stateFolder } from "../bootstrap.mjs";
import { currentHolder } from "../start-lock.mjs";
import { readPlaywright, readVitest } from "./read-reports.mjs";

/** Where the domain's tests run; those about time run west and east of there too, with and without a clock change, for they must not depend on it. */
const HOME_ZONE = "UTC";
const ZONES = ["America/New_York", "Pacific/Auckland"];
const program = (...parts) => path.join(root, "node_modules", ...parts);

function reportFile(name) {
  const folder = path.join(stateFolder, "tests");
  mkdirSync(folder, { recursive: true });
  const file = path.join(folder, `${name}.json`);
  rmSync(file, { force: true });
  return file;
}

const tail = (words) => words.trim().split("\n").slice(-30).map((line) => `      ${line}`).join("\n");

async function verdict(name, args) {
  const { code, words } = await runLogged(`test-${name}`, process.execPath, args);
  return code === 0 ? { passed: 1, failed: 0, skipped: 0, faults: [] } : { passed: 0, failed: 1, skipped: 0, faults: [`${name}\n${tail(words)}`] };
}

/** A runner that ended badly although no test failed has something to say in its log. */
function withExit(counts, { code, words, logFile }, name) {
  if (counts !== undefined && (code === 0 || counts.failed > 0)) return counts;
  const { passed = 0, skipped = 0, faults = [] } = counts ?? {};
  return { passed, failed: 1, skipped, faults: [...faults, `${name} ended with exit code ${code} (${logFile})\n${tail(words)}`] };
}

async function vitest(name, args, env = {}) {
  const file = reportFile(name);
  const all = [program("vitest", "vitest.mjs"), "run", "--reporter=default", "--reporter=json", `--outputFile.json=${file}`, ...args];
  const result = await runLogged(`test-${name}`, process.execPath, all, { env });
  return withExit(readVitest(file), result, name);
}

async function types() {
  await runLogged("typegen", process.execPath, [program("next", "dist", "bin", "next"), "typegen"]);
  return verdict("types", [program("typescript", "bin", "tsc"), "--noEmit"]);
}

async function zones() {
  const all = [];
  for (const zone of ZONES) {
    const name = `zones-${zone.replace("/", "-")}`;
    all.push(await vitest(name, ["--project", "domain", "tests/domain/time", "tests/domain/booking"], { TZ: zone }));
  }
  const sum = (key) => all.reduce((total, counts) => total + counts[key], 0);
  return { passed: sum("passed"), failed: sum("failed"), skipped: sum("skipped"), faults: all.flatMap((counts, i) => counts.faults.map((fault) => `TZ=${ZONES[i]} ${fault}`)) };
}

async function e2e() {
  const { register } = await import("tsx/esm/api");
  register();
  const { buildPages, needsBuild } = await import("../start/web-build.ts");
  const holder = currentHolder(stateFolder);
  if (holder !== undefined && (await needsBuild(root, stateFolder))) {
    throw new Error(`Lehrbook is running from this folder (process ${holder.pid}), and its pages would have to be built anew: stop it first.`);
  }
  const browser = await findBrowser();
  await buildPages(root, stateFolder);
  const file = reportFile("e2e");
  const args = [program("@playwright", "test", "cli.js"), "test", "--config", "e2e/playwright.config.ts", "--reporter=line,json"];
  const env = { LEHRBOOK_CHROMIUM: browser, PLAYWRIGHT_JSON_OUTPUT_FILE: file, PLAYWRIGHT_JSON_OUTPUT_NAME: file, FORCE_COLOR: "0" };
  const result = await runLogged("test-e2e", process.execPath, args, { env });
  return withExit(readPlaywright(file), result, "browser tests");
}

export const STEPS = {
  types: { what: "types", run: types },
  lint: { what: "lint", run: () => verdict("lint", [program("eslint", "bin", "eslint.js"), "--max-warnings", "0", "."]) },
  domain: { what: "domain, contracts, architecture and command line", run: () => vitest("domain", ["--project", "domain"], { TZ: HOME_ZONE }) },
  zones: { what: `time and booking under ${ZONES.join(", ")}`, run: zones },
  server: { what: "server on a real PostgreSQL", run: () => vitest("server", ["--project", "server"]) },
  e2e: { what: "browser, on the production build", run: e2e },
};
