import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, test } from "vitest";
import { dateOf, localDay, offsetAt, startOfDay } from "@/lib/domain/time/zone-days";

const ZONES = ["UTC", "Europe/Copenhagen", "America/New_York", "Pacific/Auckland", "Asia/Kathmandu", "America/Sao_Paulo", "Australia/Lord_Howe"];
const from = Date.UTC(2015, 0, 1);
const to = Date.UTC(2045, 0, 1);
const instants = fc.tuple(fc.constantFrom(...ZONES), fc.integer({ min: from, max: to }));
const zoned = (epochMs: number, zone: string) => Temporal.Instant.fromEpochMilliseconds(epochMs).toZonedDateTimeISO(zone);

describe("days of a zone, reckoned without Temporal", () => {
  test("are Temporal's own", () => {
    fc.assert(
      fc.property(instants, ([zone, epochMs]) => {
        const day = localDay(epochMs, zone);
        const expected = zoned(epochMs, zone);
        expect(offsetAt(epochMs, zone)).toBe(expected.offsetNanoseconds / 1e6);
        expect(dateOf(day).toString()).toBe(expected.toPlainDate().toString());
        expect(startOfDay(day, zone)).toBe(expected.startOfDay().epochMilliseconds);
      }),
    );
  });

  test.each(ZONES)("in %s the offset changes at the change of the clocks, not a millisecond before or after", (zone) => {
    let at = zoned(from, zone).getTimeZoneTransition("next");
    for (let i = 0; i < 6 && at !== null; i++) {
      for (const ms of [at.epochMilliseconds - 1, at.epochMilliseconds, at.epochMilliseconds + 1]) expect(offsetAt(ms, zone)).toBe(zoned(ms, zone).offsetNanoseconds / 1e6);
      at = at.getTimeZoneTransition("next");
    }
  });
});
