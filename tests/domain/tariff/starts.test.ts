import { expect, it } from "vitest";
import { startsInHours } from "@/lib/domain/tariff/starts";

it("closes doors on whole hours while somebody is there, at the end of the hours too", () => {
  expect(startsInHours([{ weekday: 2, opensMin: 9 * 60 + 30, closesMin: 12 * 60, hands: 2 }])).toEqual([10, 11, 12].map((hour) => (24 + hour) * 60));
  expect(startsInHours([{ weekday: 1, opensMin: 23 * 60, closesMin: 1440, hands: 1 }])).toEqual([23 * 60]);
});

it("takes every hour of the week where no hours are kept", () => {
  expect(startsInHours([])).toHaveLength(168);
});
