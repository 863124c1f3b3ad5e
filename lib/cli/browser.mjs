// Finds a Chromium for the browser tests, or fetches one.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { root, runLogged, say, Trouble } from "./bootstrap.mjs";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const PLACES = ["/Applications/Google Chrome.app/Contents/MacOS/Google Chrome", "/Applications/Chromium.app/Contents/MacOS/Chromium"];

/** A browser that lies there may still lack the system's libraries. */
function runs(file) {
  return spawnSync(file, ["--version"], { stdio: "ignore", timeout: 30_000 }).status === 0;
}

function onPath() {
  const folders = (process.env.PATH ?? "").split(path.delimiter).filter((folder) => folder !== "");
  const files = folders.flatMap((folder) => NAMES.map((name) => path.join(folder, name)));
  return [...files, ...PLACES].find((file) => existsSync(file) && runs(file));
}

function playwrightsOwn() {
  const file = createRequire(path.join(root, "package.json"))("@playwright/test").chromium.executablePath();
  return file !== "" && existsSync(file) && runs(file) ? file : undefined;
}

/** A browser that is here already: the one named, the system's, or one that Playwright fetched before. */
export function presentBrowser() {
  const named = process.env.LEHRBOOK_CHROMIUM;
  if (named) {
    if (!runs(named)) throw new Trouble(`LEHRBOOK_CHROMIUM is ${named}, which is not a browser that runs here.`);
    return named;
  }
  return onPath() ?? playwrightsOwn();
}

/** As above, else fetched: by Playwright, or as root on Debian from the distribution. */
export async function findBrowser() {
  const present = presentBrowser();
  if (present !== undefined) return present;
  say("Fetching a browser …");
  const playwright = path.join(root, "node_modules", "@playwright", "test", "cli.js");
  await runLogged("browser", process.execPath, [playwright, "install", "chromium"], { env: { PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: "10000" } });
  const own = playwrightsOwn();
  if (own !== undefined) return own;
  if (process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    const env = { DEBIAN_FRONTEND: "noninteractive" };
    await runLogged("apt-update", "apt-get", ["update", "-qq"], { env });
    await runLogged("apt-install", "apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium"], { env });
    const installed = onPath();
    if (installed !== undefined) return installed;
  }
  throw new Trouble("No browser was found or could be fetched: install Chromium, or set LEHRBOOK_CHROMIUM to its path.");
}
