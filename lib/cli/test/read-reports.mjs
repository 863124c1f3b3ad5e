// Turns the runners' JSON reports into counts and a few words on each failure.
import { existsSync, readFileSync } from "node:fs";

/** @typedef {{ passed: number, failed: number, skipped: number, faults: string[] }} Counts */

function readJson(file) {
  try {
    return existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : undefined;
  } catch {
    return undefined;
  }
}

// Runners colour their messages; a summary is read in logs too.
const plain = (text) => String(text ?? "").replace(/\u001b\[[0-9;]*m/g, "");

function firstLines(text, count = 6) {
  return plain(text).split("\n").slice(0, count).map((line) => `      ${line}`).join("\n");
}

/** A file that could not even be loaded has no tests to count; it counts as one that failed. */
export function readVitest(file) {
  const report = readJson(file);
  if (report === undefined) return undefined;
  const faults = [];
  let failed = report.numFailedTests ?? 0;
  for (const suite of report.testResults ?? []) {
    for (const test of suite.assertionResults) {
      if (test.status === "failed") faults.push(`${test.fullName}\n      ${suite.name}\n${firstLines(test.failureMessages[0])}`);
    }
    if (suite.status === "failed" && !suite.assertionResults.some((test) => test.status === "failed")) {
      failed += 1;
      faults.push(`${suite.name}\n${firstLines(suite.message)}`);
    }
  }
  return { passed: report.numPassedTests ?? 0, failed, skipped: (report.numPendingTests ?? 0) + (report.numTodoTests ?? 0), faults };
}

function specsOf(suite, trail = []) {
  const here = [...trail, suite.title].filter((title) => title !== "");
  const own = (suite.specs ?? []).map((spec) => ({ spec, name: [...here, spec.title].join(" › ") }));
  return [...own, ...(suite.suites ?? []).flatMap((inner) => specsOf(inner, here))];
}

/** A test that passed only when tried again counts as failed: it cannot be relied on. */
export function readPlaywright(file) {
  const report = readJson(file);
  if (report?.stats === undefined) return undefined;
  const { expected, unexpected, flaky, skipped } = report.stats;
  const faults = (report.errors ?? []).map((error) => firstLines(error.message));
  for (const { spec, name } of (report.suites ?? []).flatMap((suite) => specsOf(suite))) {
    for (const test of spec.tests.filter(({ status }) => status === "unexpected" || status === "flaky")) {
      faults.push(`${name} [${test.projectName}]\n${firstLines(test.results.at(-1)?.error?.message, 12)}`);
    }
  }
  const outside = (report.errors ?? []).length > 0 && unexpected + flaky === 0 ? 1 : 0;
  return { passed: expected, failed: unexpected + flaky + outside, skipped, faults };
}
