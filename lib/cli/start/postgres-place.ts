import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, stat } from "node:fs/promises";
import path from "node:path";
import { type Account, canRun, claimFolder, postgresAccount } from "../embedded/account";
import { copyPostgres, packagedPostgres, programPath } from "../embedded/binaries";
import type { ClusterPlace } from "../embedded/cluster";

/** Where things go when root's clone lies where the account that PostgreSQL runs as cannot enter. */
const SHARED = "/var/lib/lehrbook";

/**
 * Finds who runs PostgreSQL, from which programs and on which folder. For an ordinary user all of it is inside
 * `stateFolder`. For root the account must be able to read both, else they move to a folder of the system's.
 */
export async function choosePlace(root: string, stateFolder: string, password: string): Promise<ClusterPlace> {
  const account = await chooseAccount(path.join(stateFolder, "postgres", "data"));
  const parent = await reachableParent(account, root, stateFolder);
  const packaged = await packagedPostgres();
  const home = canRun(account, programPath(packaged, "postgres")) ? packaged : await copyPostgres(packaged, path.join(parent, "home"));
  const logs = path.join(stateFolder, "logs");
  await mkdir(logs, { recursive: true });
  return { home, account, dataFolder: path.join(parent, "data"), logFile: path.join(logs, "postgres.log"), password };
}

/** Data made by an ordinary user stays with that user when root starts Lehrbook later. */
async function chooseAccount(dataFolder: string): Promise<Account> {
  if (process.getuid?.() === 0 && existsSync(dataFolder)) {
    const { uid, gid } = await stat(dataFolder);
    if (uid !== 0) return { uid, gid };
  }
  return postgresAccount();
}

async function reachableParent(account: Account, root: string, stateFolder: string): Promise<string> {
  const inside = path.join(stateFolder, "postgres");
  if (await claimFolder(account, inside)) return inside;
  const key = createHash("sha256").update(root).digest("hex").slice(0, 12);
  const outside = path.join(SHARED, key);
  if (await claimFolder(account, outside)) return outside;
  throw new Error(`PostgreSQL can reach neither ${inside} nor ${outside}: start as an ordinary user.`);
}
