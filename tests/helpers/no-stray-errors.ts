import { afterEach, beforeEach, expect, type MockInstance, vi } from "vitest";

let spy: MockInstance<typeof console.error>;

/**
 * What a test lets be written to console.error unnoticed hides faults, so anything left there fails it. A test that
 * expects such a line says so and clears it: `expect(console.error).toHaveBeenCalled(); vi.mocked(console.error).mockClear()`.
 */
beforeEach(() => {
  spy = vi.spyOn(console, "error");
});

afterEach(() => {
  const said = [...spy.mock.calls];
  spy.mockRestore();
  expect(said, "written to console.error; expect it in the test, or mend it").toEqual([]);
});
