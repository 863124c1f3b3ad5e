import { createHash, type Hash } from "node:crypto";
import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import path from "node:path";
import { runStep, say } from "../bootstrap.mjs";

/** What the built pages are made from. */
const SOURCES = ["app", "lib", "public", "prisma/schema.prisma", "package-lock.json", "next.config.ts", "tsconfig.json"];
const NOT_BUILT = new Set(["lib/cli", "lib/server/prisma-client"]);

async function addTo(hash: Hash, root: string, place: string): Promise<void> {
  if (NOT_BUILT.has(place)) return;
  const full = path.join(root, place);
  const entries = await readdir(full, { withFileTypes: true }).catch(() => undefined);
  if (entries === undefined) {
    const content = await readFile(full).catch(() => undefined);
    if (content !== undefined) hash.update(`${place}\0${content.length}\0`).update(content);
    return;
  }
  for (const name of entries.map((entry) => entry.name).sort()) await addTo(hash, root, path.posix.join(place, name));
}

/** One number for everything the pages are built from; equal sources give equal numbers. */
export async function sourceHash(root: string): Promise<string> {
  const hash = createHash("sha256");
  for (const place of SOURCES) await addTo(hash, root, place);
  return hash.digest("hex");
}

/** Names the build that stands, so that one left half done or made by hand is not taken for ours. */
async function builtFrom(root: string, stateFolder: string): Promise<string | undefined> {
  const stamp = await readFile(path.join(stateFolder, "web-build"), "utf8").catch(() => "");
  const buildId = await readFile(path.join(root, ".next", "BUILD_ID"), "utf8").catch(() => undefined);
  const [id, hash] = stamp.split(" ");
  return buildId !== undefined && id === buildId.trim() ? hash : undefined;
}

/** Whether the pages would have to be built anew. */
export async function needsBuild(root: string, stateFolder: string): Promise<boolean> {
  return (await builtFrom(root, stateFolder)) !== (await sourceHash(root));
}

/** Builds the pages when their sources changed since the last time. */
export async function buildPages(root: string, stateFolder: string): Promise<void> {
  const hash = await sourceHash(root);
  if ((await builtFrom(root, stateFolder)) === hash) return;
  say("Building the pages …");
  const next = path.join(root, "node_modules", "next", "dist", "bin", "next");
  await runStep("Building the pages", "build", process.execPath, [next, "build"], { env: { NODE_ENV: "production" } });
  const buildId = (await readFile(path.join(root, ".next", "BUILD_ID"), "utf8")).trim();
  await mkdir(stateFolder, { recursive: true });
  await writeFile(path.join(stateFolder, "web-build"), `${buildId} ${hash}`);
}
