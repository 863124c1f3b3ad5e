import { randomBytes } from "node:crypto";
import { chmod, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { canRun, claimFolder, postgresAccount } from "./account";
import { copyPostgres, packagedPostgres, programPath } from "./binaries";
import { type Cluster, startCluster } from "./cluster";

/** Nothing in it outlives the tests, so nothing need reach the disk. */
const FAST = { fsync: "off", synchronous_commit: "off", full_page_writes: "off", max_connections: "200" };

/**
 * A server in a folder of its own under the system's temporary one, gone without trace when stopped.
 * @param settings instead of those that trade durability for speed
 */
export async function startTemporaryCluster(settings: Readonly<Record<string, string>> = FAST): Promise<Cluster> {
  const account = postgresAccount();
  const folder = await mkdtemp(path.join(tmpdir(), "lehrbook-postgres-"));
  await chmod(folder, 0o755);
  await claimFolder(account, folder);
  const packaged = await packagedPostgres();
  const home = canRun(account, programPath(packaged, "postgres")) ? packaged : await copyPostgres(packaged, path.join(folder, "home"));
  const place = {
    home, account, dataFolder: path.join(folder, "data"), logFile: path.join(folder, "log"), password: randomBytes(18).toString("hex"),
  };
  const remove = (): Promise<void> => rm(folder, { recursive: true, force: true });
  try {
    const cluster = await startCluster(place, { settings, temporaryFolder: folder });
    return { ...cluster, stop: () => cluster.stop().then(remove) };
  } catch (error) {
    await remove();
    throw error;
  }
}
