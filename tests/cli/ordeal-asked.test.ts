import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";

const ordeal = (...given: readonly string[]) => spawnSync(process.execPath, ["--import", "tsx", "lib/cli/ordeal.ts", ...given], { encoding: "utf8" });

describe("an ordeal that is asked wrongly", () => {
  it.each([
    [["60"], "Unexpected argument '60'"],
    [["--seconds", "4"], "--seconds 4: seconds is \"4\"; it must be at least 5."],
    [["--seconds", "86401"], "at most 86400"],
    [["--seed", "x"], "--seed x: it must be a whole number"],
  ])("says what of %j is wrong and how it is asked, and begins nothing", (given, words) => {
    const { status, stdout, stderr } = ordeal(...given);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toContain(words);
    expect(stderr).toContain("Usage: npm run ordeal -- [--seconds 5 to 86400] [--seed 1 to 2147483646]");
    expect(stderr).not.toMatch(/^\s+at /m);
  });
});
