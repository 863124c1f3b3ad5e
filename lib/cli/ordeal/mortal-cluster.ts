import { randomBytes } from "node:crypto";
import { chmod, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { canRun, claimFolder, postgresAccount } from "@/lib/cli/embedded/account";
import { copyPostgres, packagedPostgres, programPath } from "@/lib/cli/embedded/binaries";
import { type Cluster, startCluster } from "@/lib/cli/embedded/cluster";

export type MortalCluster = {
  readonly url: string;
  /** SIGKILL to the server itself, then a start on the same data and port; resolves when it answers again. */
  killAndRestart(): Promise<void>;
  stop(): Promise<void>;
};

/** What is acknowledged must survive a killed process: commits wait for the log. They need not survive a power cut here. */
const SETTINGS = { fsync: "off", synchronous_commit: "on", max_connections: "100" };

export async function startMortalCluster(): Promise<MortalCluster> {
  const account = postgresAccount();
  const folder = await mkdtemp(path.join(tmpdir(), "lehrbook-ordeal-"));
  await chmod(folder, 0o755);
  await claimFolder(account, folder);
  const packaged = await packagedPostgres();
  const home = canRun(account, programPath(packaged, "postgres")) ? packaged : await copyPostgres(packaged, path.join(folder, "home"));
  const place = { home, account, dataFolder: path.join(folder, "data"), logFile: path.join(folder, "log"), password: randomBytes(18).toString("hex") };
  let cluster: Cluster = await startCluster(place, { settings: SETTINGS, temporaryFolder: folder });
  const { url, port } = cluster;
  return {
    url,
    killAndRestart: async () => {
      process.kill(Number((await readFile(path.join(place.dataFolder, "postmaster.pid"), "utf8")).split("\n")[0]), "SIGKILL");
      await cluster.ended;
      do {
        if (cluster.port !== port) await cluster.stop();
        cluster = await startCluster(place, { port, settings: SETTINGS, temporaryFolder: folder });
      } while (cluster.port !== port);
    },
    stop: async () => {
      await cluster.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
