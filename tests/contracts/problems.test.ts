import { describe, expect, it } from "vitest";
import { z } from "zod";
import { problemsOf } from "@/lib/contracts/problems";

function problemsIn(schema: z.ZodType, input: unknown) {
  const parsed = schema.safeParse(input);
  return parsed.success ? [] : problemsOf(parsed.error, input);
}

describe("problems for a person from a refused form", () => {
  it("names a bound from both sides", () => {
    const schema = z.object({ hands: z.number().min(1).max(8) });
    expect(problemsIn(schema, { hands: 0 })[0]).toMatchObject({ code: "out-of-range", message: "hands is 0; it must be at least 1.", allowed: "at least 1" });
    expect(problemsIn(schema, { hands: 9 })[0]?.message).toBe("hands is 9; it must be at most 8.");
  });

  it("speaks of characters for a text and of a list for a list", () => {
    const schema = z.object({ title: z.string().max(3), days: z.array(z.string()).min(1) });
    expect(problemsIn(schema, { title: "abcd", days: [] }).map((problem) => problem.allowed)).toEqual([
      "at most 3 characters long",
      "a list of at least 1",
    ]);
  });

  it("keeps a sentence that the schema's author wrote", () => {
    const schema = z.object({ title: z.string().min(1, "Give the casting a title.") });
    expect(problemsIn(schema, { title: "" })[0]?.message).toBe("Give the casting a title.");
  });

  it("keeps the sentence and the code of a check across fields", () => {
    const schema = z
      .object({ from: z.number(), to: z.number() })
      .refine((range) => range.from < range.to, { path: ["to"], message: "The end must come after the start.", params: { code: "ends-before-start" } });
    expect(problemsIn(schema, { from: 2, to: 1 })[0]).toEqual({
      code: "ends-before-start",
      field: "to",
      value: 1,
      message: "The end must come after the start.",
    });
  });

  it("never quotes a password", () => {
    const schema = z.object({ password: z.string().min(12) });
    const problem = problemsIn(schema, { password: "hunter2" })[0];
    expect(JSON.stringify(problem)).not.toContain("hunter2");
    expect(problem?.allowed).toBe("at least 12 characters long");
  });
});
