import { type ChildProcess, spawn } from "node:child_process";
import path from "node:path";
import { root } from "@/lib/cli/bootstrap.mjs";
import { freePort } from "@/lib/cli/embedded/free-port";

/** One application process that can be killed without a word and started again on the same port. */
export class AppProcess {
  private child: ChildProcess | undefined;
  private constructor(readonly port: number, private readonly environment: Readonly<Record<string, string>>) {}

  static async start(environment: Readonly<Record<string, string>>): Promise<AppProcess> {
    const app = new AppProcess(await freePort(undefined), environment);
    app.launch();
    return app;
  }

  private launch(): void {
    const follow = path.join(root, "lib", "cli", "start", "follow-parent.mjs");
    this.child = spawn(process.execPath, ["--no-deprecation", "--import", follow, "--import", "tsx", path.join(root, "lib/cli/ordeal/light-server.ts"), String(this.port)], {
      cwd: root, stdio: ["ignore", "ignore", "ignore", "ipc"], env: { ...process.env, ...this.environment, NODE_ENV: "production", LEHRBOOK_PARENT: String(process.pid) },
    });
  }

  async killAndRestart(): Promise<void> {
    await this.kill();
    this.launch();
  }

  async kill(): Promise<void> {
    const { child } = this;
    if (child === undefined || child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((done) => child.once("exit", done));
    child.kill("SIGKILL");
    await gone;
  }
}
