import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { whatsNext, type StandingRun } from "@/lib/domain/booking/whats-next";

const at = (day: number, hour = 9) => Temporal.Instant.from(`2026-12-${String(day).padStart(2, "0")}T${String(hour).padStart(2, "0")}:00:00Z`);

const planned: StandingRun = {
  status: "planned",
  bookings: [
    { purpose: "steam-out", start: at(8), end: at(8, 12) },
    { purpose: "load", start: at(9, 13), end: at(9, 14) },
    { purpose: "kiln", start: at(9, 14), end: at(21, 12) },
    { purpose: "unload", start: at(21), end: at(21, 10) },
  ],
  expectedEnd: null,
  openedAt: null,
};
const started: StandingRun = { ...planned, status: "started" };

describe("what is next for a casting", () => {
  it("is to book a run, unless one was asked for", () => {
    expect(whatsNext(null, false, at(1))).toEqual({ step: "book-run" });
    expect(whatsNext(null, true, at(1))).toEqual({ step: "asked" });
  });

  it("is the steam-out until its booked time is over, then the loading", () => {
    expect(whatsNext(planned, false, at(8, 11))).toEqual({ step: "steam-out", at: at(8), overdue: false });
    expect(whatsNext(planned, false, at(8, 12))).toEqual({ step: "load", at: at(9, 13), overdue: false });
  });

  it("is the loading when there is nothing to steam out, and the kiln's own time when no trolley is booked", () => {
    const withoutSteam = { ...planned, bookings: planned.bookings.slice(1) };
    expect(whatsNext(withoutSteam, false, at(1))).toEqual({ step: "load", at: at(9, 13), overdue: false });
    const kilnOnly = { ...planned, bookings: planned.bookings.slice(2, 3) };
    expect(whatsNext(kilnOnly, false, at(1))).toEqual({ step: "load", at: at(9, 14), overdue: false });
  });

  it("is overdue from the instant the kiln should have been closed", () => {
    expect(whatsNext(planned, false, at(9, 13))).toMatchObject({ step: "load", overdue: false });
    expect(whatsNext(planned, false, at(9, 14))).toMatchObject({ step: "load", overdue: true });
  });

  it("is the kiln until the unloading, then the unloading, overdue when the kiln should be free", () => {
    expect(whatsNext(started, false, at(21, 8))).toEqual({ step: "in-kiln", at: at(21), overdue: false });
    expect(whatsNext(started, false, at(21))).toEqual({ step: "unload", at: at(21), overdue: false });
    expect(whatsNext(started, false, at(21, 12))).toEqual({ step: "unload", at: at(21), overdue: true });
  });

  it("follows a firing that is expected to end later", () => {
    expect(whatsNext({ ...started, expectedEnd: at(23) }, false, at(22))).toMatchObject({ step: "in-kiln", at: at(23) });
  });

  it("is nothing more once it was opened", () => {
    expect(whatsNext({ ...started, status: "opened", openedAt: at(20) }, false, at(25))).toEqual({ step: "opened", at: at(20) });
  });
});
