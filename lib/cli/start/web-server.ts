import { type ChildProcess, spawn } from "node:child_process";
import { get } from "node:http";
import path from "node:path";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";

export type WebServerOptions = {
  readonly root: string;
  readonly port: number;
  readonly host: string;
  readonly dev?: boolean;
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** Receives the way to stop it as soon as it is launched, well before it answers. */
  readonly onLaunch?: (stop: () => Promise<void>) => void;
  /** Receives each line worth showing. */
  readonly onLine: (line: string) => void;
};

export type WebServer = {
  /** Resolves when the process has ended, asked or not. */
  readonly ended: Promise<void>;
  stop(): Promise<void>;
};

/** The greeting of the web server says nothing that we do not say ourselves. */
const GREETING = /^\s*(?:▲|- (?:Local|Network|Environments|Experiments)|✓ (?:Starting|Ready|Running next\.config)|$)/;

/**
 * Serves the built pages (or, with `dev`, the sources) until stopped.
 * @throws Error "EADDRINUSE" when somebody took the port first; else with the last lines of the server
 */
export async function startWebServer(options: WebServerOptions): Promise<WebServer> {
  const child = launch(options);
  const last: string[] = [];
  for (const stream of [child.stdout, child.stderr]) {
    if (stream === null) continue;
    createInterface(stream).on("line", (line) => {
      last.push(line);
      if (last.length > 15) last.shift();
      if (!GREETING.test(line)) options.onLine(line);
    });
  }
  const ended = new Promise<void>((done) => child.once("exit", () => done()).once("error", () => done()));
  const server = { ended, stop: () => stop(child, ended) };
  options.onLaunch?.(server.stop);
  if (await answers(options.port, options.host, ended)) return server;
  await server.stop();
  const words = last.join("\n");
  throw new Error(/EADDRINUSE/.test(words) ? "EADDRINUSE" : `The web server did not start:\n${words}`);
}

/** In a group of its own, so that Ctrl-C reaches only us; the channel lets it notice when we are gone. */
function launch({ root, port, host, dev, environment }: WebServerOptions): ChildProcess {
  const follow = pathToFileURL(path.join(root, "lib", "cli", "start", "follow-parent.mjs")).href;
  const next = path.join(root, "node_modules", "next", "dist", "bin", "next");
  const mode = dev ? "dev" : "start";
  // Prisma's queries of one transaction may overlap on their connection; pg puts them in line, and warns of it each time.
  return spawn(process.execPath, ["--no-deprecation", "--import", follow, next, mode, "-p", String(port), "-H", host], {
    cwd: root, detached: true, stdio: ["ignore", "pipe", "pipe", "ipc"],
    env: { ...environment, NODE_ENV: dev ? "development" : "production", LEHRBOOK_PARENT: String(process.pid) },
  });
}

async function answers(port: number, host: string, ended: Promise<void>): Promise<boolean> {
  let over = false;
  void ended.then(() => (over = true));
  const address = host === "0.0.0.0" || host === "::" ? "127.0.0.1" : host;
  for (const until = Date.now() + 90_000; Date.now() < until && !over; ) {
    if ((await answersOnce(address, port)) && !over) return true;
    await new Promise((done) => setTimeout(done, 100));
  }
  return false;
}

/** One question on a connection of its own: one kept open would delay the server's stop. */
function answersOnce(host: string, port: number): Promise<boolean> {
  return new Promise((done) => {
    const question = get({ host, port, path: "/", agent: false, timeout: 30_000 }, (answer) => {
      answer.resume();
      answer.once("close", () => done(true));
    });
    question.once("timeout", () => question.destroy()).once("error", () => done(false));
  });
}

async function stop(child: ChildProcess, ended: Promise<void>): Promise<void> {
  if (child.pid === undefined) return;
  if (child.exitCode === null && child.signalCode === null) {
    child.kill("SIGTERM");
    const hard = setTimeout(() => killGroup(child.pid), 8_000);
    await ended;
    clearTimeout(hard);
  }
  killGroup(child.pid);
}

function killGroup(pid: number | undefined): void {
  try {
    if (pid !== undefined) process.kill(-pid, "SIGKILL");
  } catch {
    // Nobody of the group is left.
  }
}
