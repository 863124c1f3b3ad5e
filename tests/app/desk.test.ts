import { describe, expect, it } from "vitest";
import { Desk, type Urgency } from "@/app/_work/desk";
import { replyTo } from "@/app/_work/work";
import { EMPTY_FORM } from "@/lib/contracts/casting-fields";

/** A desk, what was begun at it, and a way to end what is being done. */
function deskWith() {
  const desk = new Desk();
  const begun: string[] = [];
  let end: () => void = () => undefined;
  const put = (slot: string, urgency: Urgency, name: string) =>
    desk.put({ slot, urgency, start: () => new Promise<void>((resolve) => { begun.push(name); end = resolve; }) });
  const finish = async () => {
    end();
    await new Promise((resolve) => setImmediate(resolve));
  };
  return { desk, begun, put, finish };
}

describe("a desk", () => {
  it("does one thing at a time, the most urgent next", async () => {
    const { begun, put, finish } = deskWith();
    put("chart", 2, "chart");
    put("picture", 1, "picture");
    put("typing", 0, "typing");
    expect(begun).toEqual(["chart"]);
    await finish();
    await finish();
    expect(begun).toEqual(["chart", "typing", "picture"]);
  });
  it("answers only the last of what was asked in one slot meanwhile", async () => {
    const { begun, put, finish } = deskWith();
    for (const name of ["1", "12", "120"]) put("typing", 0, name);
    await finish();
    await finish();
    expect(begun).toEqual(["1", "120"]);
  });
  it("forgets what is no longer asked", async () => {
    const { desk, begun, put, finish } = deskWith();
    put("a", 0, "a");
    put("b", 0, "b");
    desk.drop("b");
    await finish();
    expect(begun).toEqual(["a"]);
  });
});

describe("what the worker replies", () => {
  it("is the answer under the number of the question", () => {
    const reply = replyTo({ id: 7, name: "answer", question: { form: EMPTY_FORM, kilns: [] } });
    expect(reply).toMatchObject({ id: 7, answer: { state: "unfinished" } });
    expect(structuredClone(reply)).toEqual(reply);
  });
  it("is the reason when a calculation breaks", () => {
    expect(replyTo({ id: 8, name: "plan", question: null })).toMatchObject({ id: 8, failed: expect.stringContaining("null") as string });
  });
});
