import { spawn } from "node:child_process";

/** Waits for the end of its input, which the system closes when we die; then ends the server and clears up. */
const SCRIPT = 'read -r _; kill -INT "$1"; while kill -0 "$1"; do sleep 0.1; done; [ -z "$2" ] || rm -rf "$2"';

/**
 * Makes sure that a server does not outlive this process, even one killed without a word.
 * @param folder removed once the server has ended, when given
 * @returns calls the watch off, after the server was stopped in the ordinary way
 */
export function watchOver(pid: number, folder = ""): () => void {
  const dog = spawn("/bin/sh", ["-c", SCRIPT, "sh", String(pid), folder], { cwd: "/", detached: true, stdio: ["pipe", "ignore", "ignore"] });
  dog.once("error", () => undefined); // a system without a shell goes unwatched; the next start clears up
  dog.stdin.once("error", () => undefined);
  dog.unref();
  if ("unref" in dog.stdin && typeof dog.stdin.unref === "function") dog.stdin.unref();
  return () => void dog.kill("SIGKILL");
}
