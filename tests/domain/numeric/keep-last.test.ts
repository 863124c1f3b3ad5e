import { describe, expect, it } from "vitest";
import { keepLast } from "@/lib/domain/numeric/keep-last";

function counted(count: number) {
  let worked = 0;
  const doubled = keepLast(({ x }: { readonly x: number }) => { worked += 1; return 2 * x; }, count);
  return { doubled, worked: () => worked };
}

describe("a function that keeps its last answers", () => {
  it("works a question out once, and says the same again", () => {
    const { doubled, worked } = counted(2);
    expect([doubled({ x: 1 }), doubled({ x: 1 })]).toEqual([2, 2]);
    expect(worked()).toBe(1);
  });
  it("keeps an answer of nothing as well", () => {
    let worked = 0;
    const none = keepLast((_: number): undefined => { worked += 1; return undefined; }, 1);
    none(1); none(1);
    expect(worked).toBe(1);
  });
  it("tells questions apart by themselves, not by what helps to answer them", () => {
    const helped: string[] = [];
    const sum = keepLast((x: number, helper: string) => { helped.push(helper); return x + 1; }, 2);
    expect([sum(1, "a"), sum(1, "b"), sum(2, "c")]).toEqual([2, 2, 3]);
    expect(helped).toEqual(["a", "c"]);
  });
  it("lets go of what was asked longest ago", () => {
    const { doubled, worked } = counted(2);
    for (const x of [1, 2, 1, 3]) doubled({ x });
    expect(worked()).toBe(3);
    doubled({ x: 1 });
    expect(worked()).toBe(3);
    doubled({ x: 2 });
    expect(worked()).toBe(4);
  });
});
