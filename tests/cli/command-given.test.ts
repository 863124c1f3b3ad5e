import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { commandGivenAtMs } from "@/lib/cli/command-given";

describe("when a command was given", () => {
  it("is never after the start of its process, nor long before it", () => {
    expect(commandGivenAtMs()).toBeLessThanOrEqual(performance.timeOrigin);
  });

  it("is told by a process of its own too, in milliseconds", () => {
    const program = 'import("./lib/cli/command-given.ts").then(({ commandGivenAtMs }) => console.log(performance.timeOrigin - commandGivenAtMs()))';
    const { stdout } = spawnSync(process.execPath, ["--import", "tsx", "-e", program], { encoding: "utf8" });
    expect(Number(stdout)).toBeGreaterThanOrEqual(0);
  });
});
