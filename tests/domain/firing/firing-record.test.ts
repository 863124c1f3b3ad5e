import { describe, expect, it } from "vitest";
import { firingRecord, type PastFiring } from "@/lib/domain/firing/firing-record";

const PAST: PastFiring = { programHours: 200, usualMarginHours: 10, heldHours: 212, openedAfterHours: 212, inTime: true, coolAfterHours: null };
const hours = (over: Partial<PastFiring>): number => firingRecord({ ...PAST, ...over }).actualHours;

describe("what a firing says about its kiln", () => {
  it("counts no waiting for people when it was opened in time", () => {
    expect(hours({ openedAfterHours: 211.9 })).toBe(211.9);
    expect(hours({ openedAfterHours: 230 })).toBe(212);
  });

  it("counts all of it when it was opened too late and nobody said when it would be cool", () => {
    expect(hours({ openedAfterHours: 230, inTime: false })).toBe(230);
  });

  it("counts until it was said to be cool, whether that was in time or not", () => {
    expect(hours({ openedAfterHours: 300, inTime: false, coolAfterHours: 228 })).toBe(228);
    expect(hours({ openedAfterHours: 300, inTime: false, coolAfterHours: 310 })).toBe(300);
    expect(hours({ openedAfterHours: 230, inTime: true, coolAfterHours: 228 })).toBe(228);
    expect(hours({ openedAfterHours: 230, inTime: true, coolAfterHours: 207 })).toBe(207);
  });

  it("keeps program and usual margin as they were", () => {
    expect(firingRecord(PAST)).toMatchObject({ programHours: 200, usualMarginHours: 10 });
  });

  it("passes a number that is none on, to be refused", () => {
    expect(hours({ openedAfterHours: NaN })).toBeNaN();
  });
});
