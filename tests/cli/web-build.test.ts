import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { needsBuild, sourceHash } from "@/lib/cli/start/web-build";

let root = "";
async function put(place: string, text: string): Promise<void> {
  await mkdir(path.dirname(path.join(root, place)), { recursive: true });
  await writeFile(path.join(root, place), text);
}

beforeEach(async () => {
  root = await mkdtemp(path.join(tmpdir(), "build-"));
  await put("app/page.tsx", "one");
  await put("lib/domain/units.ts", "two");
});
afterEach(() => rm(root, { recursive: true, force: true }));

describe("whether the pages must be built again", () => {
  it.each(["app/page.tsx", "lib/domain/units.ts", "lib/new.ts", "next.config.ts", "package-lock.json", "prisma/schema.prisma"])("follows %s", async (place) => {
    const before = await sourceHash(root);
    await put(place, "changed");
    expect(await sourceHash(root)).not.toBe(before);
  });

  it.each(["lib/cli/start.mjs", "lib/server/prisma-client/client.ts", "tests/a.test.ts", "README.md"])("does not follow %s", async (place) => {
    const before = await sourceHash(root);
    await put(place, "changed");
    expect(await sourceHash(root)).toBe(before);
  });

  it("notices that content moved from one file to another", async () => {
    const before = await sourceHash(root);
    await put("app/page.tsx", "two");
    await put("lib/domain/units.ts", "one");
    expect(await sourceHash(root)).not.toBe(before);
  });

  it("trusts only the build that was stamped", async () => {
    const state = path.join(root, ".lehrbook");
    expect(await needsBuild(root, state)).toBe(true);
    await put(".next/BUILD_ID", "abc");
    await put(".lehrbook/web-build", `abc ${await sourceHash(root)}`);
    expect(await needsBuild(root, state)).toBe(false);
    await put(".next/BUILD_ID", "made by hand");
    expect(await needsBuild(root, state)).toBe(true);
  });
});
