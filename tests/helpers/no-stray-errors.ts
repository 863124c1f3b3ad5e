import { afterEach, beforeEach, expect, vi } from "vitest";

/** What a test lets be written to console.error unnoticed hides faults, so anything unexpected there fails it. */
beforeEach(() => {
  vi.spyOn(console, "error");
});

afterEach(() => {
  const said = vi.isMockFunction(console.error) ? console.error.mock.calls : [];
  vi.restoreAllMocks();
  expect(said, "written to console.error; expect it in the test, or mend it").toEqual([]);
});
