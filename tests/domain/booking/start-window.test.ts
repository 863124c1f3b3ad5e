import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { EARLY_START_HOURS, mayStartAt } from "@/lib/domain/booking/start-window";

const kiln = { start: Temporal.Instant.from("2027-03-08T09:00:00Z"), end: Temporal.Instant.from("2027-03-15T09:00:00Z") };
const zone = "Europe/Copenhagen";
const at = (instant: Temporal.Instant) => mayStartAt(kiln, instant, zone);

describe("when a firing may start", () => {
  const earliest = kiln.start.subtract({ hours: EARLY_START_HOURS });

  it("refuses just before the early margin and says from when", () => {
    const outcome = at(earliest.subtract({ seconds: 1 }));
    expect(outcome.ok).toBe(false);
    expect(!outcome.ok && outcome.problems[0].message).toContain("from Mon 8 Mar, 07:00");
  });
  it("allows from exactly the early margin", () => expect(at(earliest).ok).toBe(true));
  it("allows within the booking", () => expect(at(kiln.start.add({ hours: 20 })).ok).toBe(true));
  it("allows one second before the booking ends", () => expect(at(kiln.end.subtract({ seconds: 1 })).ok).toBe(true));
  it("refuses at the booking's end, which is somebody else's start", () => expect(at(kiln.end).ok).toBe(false));
});
