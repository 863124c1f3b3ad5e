import { execFileSync, spawnSync } from "node:child_process";
import { chown, mkdir } from "node:fs/promises";

/** Who PostgreSQL runs as: it refuses the root user. `undefined` stands for whoever started us. */
export type Account = { readonly uid: number; readonly gid: number } | undefined;

const NAME = "postgres";

function idOf(flag: "-u" | "-g"): number | undefined {
  const answer = spawnSync("id", [flag, NAME], { encoding: "utf8" });
  return answer.status === 0 ? Number(answer.stdout.trim()) : undefined;
}

/**
 * The account PostgreSQL has to run as, made when the machine has none.
 * @throws Error when we are root and no account can be made
 */
export function postgresAccount(): Account {
  if (process.getuid?.() !== 0) return undefined;
  if (idOf("-u") === undefined) {
    try {
      execFileSync("useradd", ["--system", "--user-group", "--no-create-home", "--shell", "/bin/false", NAME], { stdio: "pipe" });
    } catch (cause) {
      throw new Error(`PostgreSQL refuses to run as root, and no user "${NAME}" could be made: start as an ordinary user.`, { cause });
    }
  }
  const [uid, gid] = [idOf("-u"), idOf("-g")];
  if (uid === undefined || gid === undefined) throw new Error(`The user "${NAME}" has no ids on this machine.`);
  return { uid, gid };
}

/** Whether the account can run a program, wherever it lies. */
export function canRun(account: Account, program: string): boolean {
  return spawnSync(program, ["--version"], { ...account, cwd: "/", stdio: "ignore" }).status === 0;
}

/** Makes a folder of the account's own, and says whether the account can get to it. */
export async function claimFolder(account: Account, folder: string): Promise<boolean> {
  await mkdir(folder, { recursive: true });
  if (account === undefined) return true;
  await chown(folder, account.uid, account.gid);
  return spawnSync("/bin/sh", ["-c", 'cd "$0"', folder], { ...account, cwd: "/", stdio: "ignore" }).status === 0;
}
