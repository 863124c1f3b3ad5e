import { mkdir, rename, writeFile } from "node:fs/promises";
import path from "node:path";
import { env } from "@/lib/server/env";

/** The file of a mail where no SMTP server is set; named by its time, so that a list of the folder is in order. */
export function mailFile(mailId: string, writtenAt: Date): string {
  return path.join(env().mailFolder, `${writtenAt.toISOString().slice(0, 19).replaceAll(":", "-")}-${mailId.slice(0, 8)}.eml`);
}

/** Writes it whole or not at all. Links in it open accounts, so nobody but the owner may read it. */
export async function putIntoFolder(file: string, raw: Buffer): Promise<void> {
  await mkdir(path.dirname(file), { recursive: true, mode: 0o700 });
  const unfinished = `${file}.${process.pid}`;
  await writeFile(unfinished, raw, { mode: 0o600 });
  await rename(unfinished, file);
}
