import { expect, it } from "vitest";
import { mayHoldLead } from "@/lib/domain/glass/may-hold-lead";

it.each([
  ["lead-crystal-24", true], ["soda-lime-casting", false], ["borosilicate-33", false],
  [{ name: "Old stock", densityKgM3: 2749 }, false], [{ name: "Old stock", densityKgM3: 2750 }, true], [{ name: "Old stock", densityKgM3: NaN }, false],
  [{ name: "Casting Crystal" }, true], [{ name: "Old stock" }, false],
] as const)("%j may hold lead: %s", (glass, may) => {
  expect(mayHoldLead(glass)).toBe(may);
});
