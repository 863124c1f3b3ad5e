import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sameSitePath } from "@/lib/contracts/same-site-path";

describe("where a sign-in may lead", () => {
  it.each(["/", "/castings", "/lifts?day=2027-03-14", "/firings/7#load", "/a//b"])("keeps the path %s of this site", (path) => {
    expect(sameSitePath(path)).toBe(path);
  });

  it.each([
    "//elsewhere.example", "/\\elsewhere.example", "/\t/elsewhere.example", "\\\\elsewhere.example", "https://elsewhere.example",
    "javascript:alert(1)", "elsewhere.example", "/..//elsewhere.example", "/.//elsewhere.example", "", " /castings", undefined, null, 7, ["/a"],
  ])("sends %j to the first page", (wish) => {
    expect(sameSitePath(wish)).toBe("/");
  });

  it("never leaves the site a browser is on, whatever is asked for", () => {
    const text = fc.oneof(fc.string(), fc.webUrl(), fc.string({ unit: fc.constantFrom("/", "\\", ".", "@", ":", "a", "\t", "%") }));
    fc.assert(
      fc.property(text, (wish) => {
        expect(new URL(sameSitePath(wish), "https://workshop.example/sign-in").origin).toBe("https://workshop.example");
      }),
      { numRuns: 1000 },
    );
  });
});
