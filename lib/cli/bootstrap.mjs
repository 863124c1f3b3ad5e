// What has to work on a fresh clone, before anything is installed: plain JavaScript, nothing but Node.
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { closeSync, existsSync, mkdirSync, openSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

export const root = path.join(path.dirname(fileURLToPath(import.meta.url)), "..", "..");
export const stateFolder = path.join(root, ".lehrbook");

/** Something a person has to put right: its message is one whole sentence for the terminal. */
export class Trouble extends Error {}

export function say(sentence) {
  process.stdout.write(`${sentence}\n`);
}

/** The sentence for whatever went wrong. */
export function sentenceFor(error) {
  if (error instanceof Trouble) return error.message;
  const where = error?.path ?? root;
  if (error?.code === "ENOSPC" || error?.code === "EDQUOT") return `The disk that holds ${where} is full: free some space and start again.`;
  if (error?.code === "EACCES" || error?.code === "EPERM") {
    return `${where} belongs to another user: start as the user who started Lehrbook here before, or give the folder to yourself.`;
  }
  if (error?.code === "EROFS") return `${where} is on a disk that cannot be written to.`;
  return error instanceof Error ? error.message : String(error);
}

/**
 * Calls back once when npm, which started us through a shell, is gone: a signal sent to npm ends that shell, which
 * does not pass it on.
 */
export function whenOrphaned(callback) {
  if (process.env.npm_lifecycle_event === undefined) return;
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    callback();
  }, 300);
  watch.unref();
}

const OLDEST = [20, 19];

export function checkNode(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split(".").map(Number);
  const old = major < OLDEST[0] || (major === OLDEST[0] && minor < OLDEST[1]);
  if (old) throw new Trouble(`Lehrbook needs Node ${OLDEST.join(".")} or newer; this is ${version}. Node 24 is a good choice.`);
}

/** Nothing that runs here calls home, and Prisma takes any file for the native engine that it does not need. */
export const quietEnvironment = {
  NEXT_TELEMETRY_DISABLED: "1",
  CHECKPOINT_DISABLE: "1",
  PRISMA_HIDE_UPDATE_MESSAGE: "1",
  PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
};

const running = new Set();
let stopping = false;

/** Ends the steps that run now and lets no other begin. */
export function stopSteps() {
  stopping = true;
  for (const child of running) child.kill("SIGTERM");
}

/**
 * Runs a program to its end, its words kept in a log.
 * @returns {Promise<{ code: number, words: string, logFile: string }>}
 */
export function runLogged(name, command, args, { env = {}, cwd = root } = {}) {
  if (stopping) throw new Trouble("Stopped.");
  const folder = path.join(stateFolder, "logs");
  mkdirSync(folder, { recursive: true });
  const logFile = path.join(folder, `${name}.log`);
  const log = openSync(logFile, "w");
  return new Promise((done) => {
    const child = spawn(command, args, { cwd, env: { ...process.env, ...quietEnvironment, ...env }, stdio: ["ignore", log, log] });
    running.add(child);
    closeSync(log);
    const end = (code) => {
      running.delete(child);
      done({ code, words: readFileSync(logFile, "utf8"), logFile });
    };
    child.once("error", () => end(-1)).once("exit", (code) => end(code ?? -1));
  });
}

function explain(what, { words, logFile }) {
  if (/ENOSPC|no space left on device/i.test(words)) return new Trouble(`The disk that holds ${root} is full: free some space and start again.`);
  const lines = words.trim().split("\n").filter((line) => line.trim() !== "");
  return new Trouble(`${what} failed; all of it is in ${logFile}:\n${lines.slice(-15).join("\n")}`);
}

/** Runs a step that must succeed. */
export async function runStep(what, name, command, args, options) {
  const result = await runLogged(name, command, args, options);
  if (result.code !== 0) throw explain(what, result);
  return result.words;
}

function packagesOf(file) {
  return JSON.parse(readFileSync(file, "utf8")).packages ?? {};
}

/** Whether node_modules holds what the lock file asks for. Optional packages depend on the machine and do not count. */
function isInstalled() {
  const installed = path.join(root, "node_modules", ".package-lock.json");
  if (!existsSync(installed)) return false;
  const present = packagesOf(installed);
  return Object.entries(packagesOf(path.join(root, "package-lock.json"))).every(
    ([place, wanted]) => place === "" || wanted.optional === true || wanted.peer === true || present[place]?.version === wanted.version,
  );
}

export async function installPackages() {
  if (isInstalled()) return;
  say("Installing packages (once; a minute or two) …");
  const npm = process.env.npm_execpath;
  const [command, first] = npm && /\.c?js$/.test(npm) ? [process.execPath, [npm]] : ["npm", []];
  await runStep("Installing the packages", "install", command, [...first, "ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"]);
}

/** Generates the database client when the schema or Prisma has changed since. */
export async function generateClient() {
  const folder = path.join(root, "lib", "server", "prisma-client");
  const stamp = path.join(folder, ".made-from");
  const prisma = path.join(root, "node_modules", "prisma");
  const inputs = [path.join(root, "prisma", "schema.prisma"), path.join(prisma, "package.json")];
  const hash = inputs.reduce((sum, file) => sum.update(readFileSync(file)), createHash("sha256")).digest("hex");
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === hash) return;
  const args = [path.join(prisma, "build", "index.js"), "generate", "--schema", inputs[0]];
  await runStep("Generating the database client", "generate", process.execPath, args);
  writeFileSync(stamp, hash);
}
