import { mkdtemp, readFile, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readOrMakeSecrets } from "@/lib/cli/start/secrets";

let folder = "";
beforeEach(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "secrets-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe("the secrets of a folder's own workshop", () => {
  it("are made once, at random, and kept where only the owner can read", async () => {
    const first = await readOrMakeSecrets(folder);
    expect(await readOrMakeSecrets(folder)).toEqual(first);
    expect((await stat(path.join(folder, "secrets.json"))).mode & 0o777).toBe(0o600);
    await rm(path.join(folder, "secrets.json"));
    expect((await readOrMakeSecrets(folder)).authSecret).not.toBe(first.authSecret);
  });

  it.each(["", "{", '{"databasePassword":"short","authSecret":"short"}', "[]"])("are never replaced when damaged: %s", async (text) => {
    const file = path.join(folder, "secrets.json");
    await writeFile(file, text);
    await expect(readOrMakeSecrets(folder)).rejects.toThrow(`${file} is damaged`);
    expect(await readFile(file, "utf8")).toBe(text);
  });
});
