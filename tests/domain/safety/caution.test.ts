import { describe, expect, it } from "vitest";
import { CAUTION, CAUTION_SENTENCES } from "@/lib/domain/safety/caution";

describe("the caution text", () => {
  it.each(["risk assessment", "makers' instructions", "local law", "fire and electrical codes", "licensed electricians", "competent people", "planning estimates", "fetch the manager"])(
    "speaks of %s",
    (words) => {
      expect(CAUTION).toContain(words);
    },
  );

  it("says that it does not replace the workshop's own judgement", () => {
    expect(CAUTION_SENTENCES[0]).toContain("does not replace");
  });

  it("is made of whole sentences and nothing else", () => {
    expect(CAUTION_SENTENCES.join(" ")).toBe(CAUTION);
    for (const sentence of CAUTION_SENTENCES) expect(sentence).toMatch(/^[A-Z].*\.$/);
  });
});
