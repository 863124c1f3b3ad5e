import { expect, it } from "vitest";
import { readColdWorkChoice } from "@/lib/contracts/cold-work-choice";
import { paths } from "@/lib/contracts/paths";

const USUAL = { surface: "usual", worked: "by-shape" };

it.each([[{}], [undefined], [{ surface: "shiny", worked: ["flat", "round"] }]])("takes %j as the usual", (asked) => {
  expect(readColdWorkChoice(asked)).toEqual(USUAL);
});

it("reads back what an address says", () => {
  const choice = { surface: "rough", worked: "round" } as const;
  const query = new URL(paths.coldWork("id", choice), "http://here").searchParams;
  expect(readColdWorkChoice(Object.fromEntries(query))).toEqual(choice);
});
