import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { currentHolder, takeLock } from "@/lib/cli/start-lock.mjs";

let folder = "";
const writeLock = (holder: unknown): void => writeFileSync(path.join(folder, "start.lock"), typeof holder === "string" ? holder : JSON.stringify(holder));

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), "lock-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("one Lehrbook per folder", () => {
  it("refuses while another process holds the lock, naming it and its port", () => {
    writeLock({ pid: process.ppid, port: 3210 });
    expect(() => takeLock(folder, 3000)).toThrow(`(process ${process.ppid}, port 3210): stop that one first`);
    expect(currentHolder(folder)).toEqual({ pid: process.ppid, port: 3210 });
  });

  it("takes over the lock of a process that is gone", () => {
    writeLock({ pid: 2 ** 30, port: 3210 });
    expect(currentHolder(folder)).toBeUndefined();
    takeLock(folder, 3000)();
    expect(readdirSync(folder)).toEqual([]);
  });

  it("takes over a lock whose process number now belongs to another process", () => {
    writeLock({ pid: process.ppid, began: "before the machine was switched on", port: 3210 });
    takeLock(folder, 3000)();
    expect(readdirSync(folder)).toEqual([]);
  });

  it("takes over a lock that was cut short while being written", () => {
    writeLock('{"pid":');
    takeLock(folder, 3000)();
    expect(readdirSync(folder)).toEqual([]);
  });

  it("leaves only the lock itself behind while it is held", () => {
    const release = takeLock(folder, 3000);
    expect(readdirSync(folder)).toEqual(["start.lock"]);
    release();
    expect(readdirSync(folder)).toEqual([]);
  });
});
