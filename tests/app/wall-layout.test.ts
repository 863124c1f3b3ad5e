import { expect, test } from "vitest";
import { fitText, wallRows, wallWeeks, type WallBar } from "@/app/_components/wall-layout";

const DAY = 86_400_000;
const span = { fromMs: 0, toMs: 100 * DAY, timeZone: "UTC" };

function bar(id: string, kilnId: string, fromDay: number, toDay: number): WallBar {
  return { id, kilnId, startMs: fromDay * DAY, endMs: toDay * DAY, title: id, who: "Oda Friis", mine: false, status: "planned", href: "/", segments: [] };
}

function linesOf(ghosts: readonly WallBar[]) {
  const { rows } = wallRows({ kilns: [{ id: "north", name: "North kiln" }], bars: [], outages: [], ghosts }, span);
  return rows[0]?.asks.map((ask) => ask.y) ?? [];
}

test("asks that touch stand on one line, asks that overlap on two", () => {
  const [first, touching, overlapping] = linesOf([bar("a", "north", 1, 5), bar("b", "north", 5, 9), bar("c", "north", 8, 12)]);
  expect(touching).toBe(first);
  expect(overlapping).toBeGreaterThan(first ?? Infinity);
});

test("a row holds what is on its kiln and in sight, earliest first", () => {
  const bars = [bar("late", "north", 20, 30), bar("other", "south", 1, 2), bar("early", "north", 3, 9), bar("past", "north", -9, 0), bar("beyond", "north", 100, 110)];
  const { rows } = wallRows({ kilns: [{ id: "north", name: "North kiln" }], bars, outages: [], ghosts: [] }, span);
  expect(rows[0]?.bars.map((one) => one.id)).toEqual(["early", "late"]);
});

test("weeks begin on the workshop's own Monday, an hour sooner or later across a clock change", () => {
  const fromMs = Date.UTC(2027, 2, 21, 23); // Monday 22 March 2027, 00:00 in Copenhagen
  const weeks = wallWeeks({ fromMs, toMs: fromMs + 15 * DAY, timeZone: "Europe/Copenhagen" });
  expect(weeks.map((week) => week.date.toString())).toEqual(["2027-03-22", "2027-03-29", "2027-04-05"]);
  expect((weeks[1]?.startMs ?? 0) - fromMs).toBe(7 * DAY - 3_600_000);
  expect(weeks.map((week) => week.newMonth)).toEqual([true, false, true]);
});

test("a week that began before what is in sight is not drawn as if it began there", () => {
  const fromMs = Date.UTC(2027, 0, 6); // a Wednesday
  const [first] = wallWeeks({ fromMs, toMs: fromMs + 14 * DAY, timeZone: "UTC" });
  expect(first?.date.toString()).toBe("2027-01-11");
});

test("a text is cut only where it does not fit, and left out when nothing readable would remain", () => {
  expect(fitText("Tide bowl", 200, 13)).toBe("Tide bowl");
  expect(fitText("Three gulls over the marsh", 80, 13)).toMatch(/^Three.*…$/);
  expect(fitText("Three gulls", 15, 13)).toBe("");
});
