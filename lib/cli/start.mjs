// npm start: from a fresh clone to a served workshop, and down again on Ctrl-C.
// With --dev, the development server; with --prepare, everything up to the built pages, for an image or a deployment.
import process from "node:process";
import { checkNode, generateClient, installPackages, quietEnvironment, root, say, sentenceFor, stateFolder, stopSteps, whenOrphaned } from "./bootstrap.mjs";
import { takeLock } from "./start-lock.mjs";
import { checkPort, wishedPort } from "./wished-port.mjs";

process.umask(0o022); // PostgreSQL may have to run as another user and read what is installed here
process.chdir(root);
Object.assign(process.env, quietEnvironment);

/** What has to be stopped, in the order it was started. */
const closers = [];
let release = () => undefined;
let ending = false;

async function closeAll() {
  for (let close = closers.pop(); close !== undefined; close = closers.pop()) {
    await close().catch((error) => process.stderr.write(`${sentenceFor(error)}\n`));
  }
}

async function end(code, sentence) {
  if (ending) return;
  ending = true;
  if (sentence !== undefined) process.stderr.write(`${sentence}\n`);
  stopSteps();
  await closeAll();
  await work.catch(() => undefined);
  await closeAll(); // what was still starting
  release();
  process.exit(code);
}

async function start() {
  checkNode();
  const port = wishedPort(process.env.PORT);
  const host = process.env.LEHRBOOK_HOST ?? (process.env.DATABASE_URL ? "0.0.0.0" : "127.0.0.1");
  const prepareOnly = process.argv.includes("--prepare");
  release = takeLock(stateFolder, port);
  if (!prepareOnly) await checkPort(port, host);
  await installPackages();
  await generateClient();
  const { register } = await import("tsx/esm/api");
  register();
  if (prepareOnly) {
    const { buildPages } = await import("./start/web-build.ts");
    return buildPages(root, stateFolder).then(() => void end(0));
  }
  const { openWorkshop } = await import("./start/open-workshop.ts");
  return openWorkshop({
    port,
    host,
    dev: process.argv.includes("--dev"),
    environment: process.env,
    onStop: (close) => closers.push(close),
    onLost: (sentence) => void end(1, sentence),
  });
}

function stop() {
  if (!ending) say("Stopping …");
  void end(0);
}

for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, stop);
whenOrphaned(stop);
process.stdout.on("error", () => undefined); // whoever read our words may be gone before we are
process.stderr.on("error", () => undefined);

const work = start();
work.catch((error) => end(1, sentenceFor(error)));
