import { randomBytes } from "node:crypto";
import { chmod, mkdir, readFile, rename, writeFile } from "node:fs/promises";
import path from "node:path";
import { z } from "zod";
import { Trouble } from "../bootstrap.mjs";

const Secrets = z.strictObject({ databasePassword: z.string().min(16), authSecret: z.string().min(32) });

export type Secrets = z.infer<typeof Secrets>;

/** The secrets of this folder's own workshop, made on the first start; nobody but the owner may read the file. */
export async function readOrMakeSecrets(folder: string): Promise<Secrets> {
  return (await readSecrets(folder)) ?? makeSecrets(fileIn(folder));
}

/** The same, or undefined when none were made yet. */
export async function readSecrets(folder: string): Promise<Secrets | undefined> {
  const file = fileIn(folder);
  const text = await readFile(file, "utf8").catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return undefined;
    throw error;
  });
  if (text === undefined) return undefined;
  await chmod(file, 0o600);
  const parsed = Secrets.safeParse(parseJson(text));
  if (!parsed.success) throw new Trouble(`${file} is damaged: put it back from a backup, or the data it opens is lost.`);
  return parsed.data;
}

function fileIn(folder: string): string {
  return path.join(folder, "secrets.json");
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

async function makeSecrets(file: string): Promise<Secrets> {
  const secrets = { databasePassword: randomBytes(24).toString("hex"), authSecret: randomBytes(32).toString("hex") };
  await mkdir(path.dirname(file), { recursive: true });
  const unfinished = `${file}.new`;
  await writeFile(unfinished, `${JSON.stringify(secrets, undefined, 2)}\n`, { mode: 0o600 });
  await rename(unfinished, file);
  return secrets;
}
