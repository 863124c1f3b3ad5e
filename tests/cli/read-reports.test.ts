import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { readPlaywright, readVitest } from "@/lib/cli/test/read-reports.mjs";

const folder = mkdtempSync(path.join(tmpdir(), "reports-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function written(report: unknown): string {
  const file = path.join(folder, "report.json");
  writeFileSync(file, typeof report === "string" ? report : JSON.stringify(report));
  return file;
}

describe("counting what the unit tests' runner reports", () => {
  it("counts tests and names those that failed", () => {
    const failure = { status: "failed", fullName: "a kiln cools", failureMessages: ["\u001b[31mexpected 1 to be 2\u001b[39m"] };
    const report = { numPassedTests: 3, numFailedTests: 1, numPendingTests: 1, testResults: [{ name: "a.test.ts", status: "failed", assertionResults: [failure] }] };
    expect(readVitest(written(report))).toEqual({ passed: 3, failed: 1, skipped: 1, faults: ["a kiln cools\n      a.test.ts\n      expected 1 to be 2"] });
  });

  it("counts a file that could not be loaded as one failure", () => {
    const report = { numPassedTests: 3, numFailedTests: 0, testResults: [{ name: "b.test.ts", status: "failed", assertionResults: [], message: "no such module" }] };
    expect(readVitest(written(report))).toMatchObject({ passed: 3, failed: 1 });
  });

  it.each(["", "{"])("has nothing to say about a report that is missing or cut short", (text) => {
    expect(readVitest(written(text))).toBeUndefined();
    expect(readVitest(path.join(folder, "none.json"))).toBeUndefined();
  });
});

describe("counting what the browser tests' runner reports", () => {
  const spec = (status: string): object => ({ title: "books a run", tests: [{ status, projectName: "phone", results: [{ error: { message: "no button" } }] }] });

  it("counts a test that passed only when tried again as failed", () => {
    const report = { stats: { expected: 2, unexpected: 0, flaky: 1, skipped: 0 }, suites: [{ title: "book.spec.ts", specs: [spec("flaky")] }] };
    expect(readPlaywright(written(report))).toEqual({ passed: 2, failed: 1, skipped: 0, faults: ["book.spec.ts › books a run [phone]\n      no button"] });
  });

  it("counts trouble outside the tests, such as a set-up that failed, as one failure", () => {
    const report = { stats: { expected: 0, unexpected: 0, flaky: 0, skipped: 0 }, suites: [], errors: [{ message: "no database" }] };
    expect(readPlaywright(written(report))).toMatchObject({ passed: 0, failed: 1, faults: ["      no database"] });
  });
});
