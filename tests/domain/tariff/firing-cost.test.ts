import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { firingPower, kWhUntil, type PowerCurve } from "@/lib/domain/firing/power";
import { costFrom, costInWeek, costRange } from "@/lib/domain/tariff/firing-cost";
import { pricedFromInstant, pricedFromMinute } from "@/lib/domain/tariff/priced-time";
import { weekOf } from "@/lib/domain/tariff/tariff";
import { BRICK, planned } from "../firing/casting-builder";
import { FLAT, SAMPLE_TARIFF } from "./sample-tariff";

const ZONE = "Europe/Copenhagen";
const at = (wall: string) => Temporal.ZonedDateTime.from(`${wall}[${ZONE}]`).toInstant();
const week = weekOf(SAMPLE_TARIFF.bands);
const curve = firingPower(planned(BRICK), BRICK.kiln);
/** 1 kW for some hours. */
const even = (hours: number): PowerCurve => ({ spans: [{ fromH: 0, toH: hours, fromKw: 1, toKw: 1 }], endsKWh: [hours], kWh: hours });
const hoursByName = (cost: { bands: readonly { name: string; hours: number }[] }) => Object.fromEntries(cost.bands.map(({ name, hours }) => [name, hours]));

describe("the cost of a firing", () => {
  it("at one price is its energy times that, wherever it starts", () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 10079 }), (startMin) => {
      const cost = costInWeek(curve, FLAT, startMin);
      expect(cost.cost).toBe(Math.round((curve.kWh * 3125) / 100));
      expect(cost.bands).toHaveLength(1);
      expect(cost.standing).toBeNull();
    }));
  });

  it("shares its hours and energy out among the bands, none left over", () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 60 * 24 * 400 }), (minutes) => {
      const cost = costFrom(curve, SAMPLE_TARIFF, at("2027-01-01T00:00").add({ minutes }), ZONE);
      expect(cost.bands.reduce((sum, { kWh }) => sum + kWh, 0)).toBeCloseTo(curve.kWh, 6);
      expect(cost.bands.reduce((sum, { hours }) => sum + hours, 0)).toBeCloseTo(curve.spans.at(-1)?.toH ?? 0, 6);
      expect(cost.bands.reduce((sum, band) => sum + band.cost, 0)).toBe(cost.cost);
    }), { numRuns: 60 });
  });

  it("puts each hour of a working day into its band, at, before and after each change", () => {
    // Monday 16:30 for 5 h: half an hour of Day, four of Peak, half an hour of Day.
    const cost = costFrom(even(5), SAMPLE_TARIFF, at("2027-02-01T16:30"), ZONE);
    expect(hoursByName(cost)).toEqual({ Day: 1, Peak: 4 });
    // 245.67 øre and 4 × 392.00 øre.
    expect(cost.bands.map(({ name, cost: øre }) => [name, øre])).toEqual([["Day", 246], ["Peak", 1568]]);
    expect(costFrom(even(1), SAMPLE_TARIFF, at("2027-02-01T05:00"), ZONE).bands.map(({ name }) => name)).toEqual(["Night"]);
    expect(costFrom(even(1), SAMPLE_TARIFF, at("2027-02-01T06:00"), ZONE).bands.map(({ name }) => name)).toEqual(["Day"]);
    expect(hoursByName(costFrom(even(4), SAMPLE_TARIFF, at("2027-02-06T17:00"), ZONE))).toEqual({ Day: 4 });
  });

  it("over the spring change has a night that is an hour shorter, over the autumn one an hour longer", () => {
    expect(hoursByName(costFrom(even(23), SAMPLE_TARIFF, at("2027-03-28T00:00"), ZONE))).toEqual({ Night: 5, Day: 18 });
    expect(hoursByName(costFrom(even(24), SAMPLE_TARIFF, at("2027-03-27T00:00"), ZONE))).toEqual({ Night: 6, Day: 18 });
    expect(hoursByName(costFrom(even(25), SAMPLE_TARIFF, at("2027-10-31T00:00"), ZONE))).toEqual({ Night: 7, Day: 18 });
  });

  it("prices an hour that the clocks show twice as that hour, both times", () => {
    const halves = weekOf([{ name: "Early", weekdays: [1, 2, 3, 4, 5, 6, 7], fromMin: 0, toMin: 150, price: 1 }, { name: "Late", weekdays: [1, 2, 3, 4, 5, 6, 7], fromMin: 150, toMin: 1440, price: 2 }]);
    // 31 October 2027: 02:00 to 03:00 is shown twice in Copenhagen.
    const stretches = pricedFromInstant(halves, at("2027-10-31T01:00"), 4, ZONE);
    expect(stretches.map(({ fromH, toH, band }) => [fromH, toH, band.name])).toEqual([[0, 1.5, "Early"], [1.5, 2, "Late"], [2, 2.5, "Early"], [2.5, 4, "Late"]]);
  });

  it("without a change of the clocks is the same placed or in an ordinary week", () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 671 }), (quarter) => {
      const start = at("2027-05-03T00:00").add({ minutes: 15 * quarter });
      expect(pricedFromInstant(week, start, 500, ZONE).map(({ fromH, toH, band }) => [fromH.toFixed(6), toH.toFixed(6), band.name])).toEqual(pricedFromMinute(week, 15 * quarter, 500).map(({ fromH, toH, band }) => [fromH.toFixed(6), toH.toFixed(6), band.name]));
    }), { numRuns: 25 });
  });

  it("keeps the standing charge of its days beside the sum", () => {
    // 250.00 øre at scale 2 a day, 36 h.
    expect(costFrom(even(36), SAMPLE_TARIFF, at("2027-02-01T00:00"), ZONE).standing).toBe(375);
  });

  it("between its cheapest and its dearest start holds every other, and no start gives none", () => {
    const starts = Array.from({ length: 168 }, (_, hour) => hour * 60);
    const range = costRange(curve, SAMPLE_TARIFF, starts);
    if (range === null) throw new Error("no range");
    for (const startMin of starts) {
      const { cost } = costInWeek(curve, SAMPLE_TARIFF, startMin);
      expect(cost).toBeGreaterThanOrEqual(range.cheapest.cost.cost);
      expect(cost).toBeLessThanOrEqual(range.dearest.cost.cost);
    }
    expect(range.cheapest.cost.cost).toBeLessThan(range.dearest.cost.cost);
    expect(costRange(curve, SAMPLE_TARIFF, [])).toBeNull();
  });

  it("is the sum of small steps worked out one by one", () => {
    const start = at("2027-03-25T09:15");
    const hours = curve.spans.at(-1)?.toH ?? 0;
    let øre = 0;
    for (let step = 0; step < hours * 60; step += 1) {
      const kWh = kWhUntil(curve, (step + 1) / 60) - kWhUntil(curve, step / 60);
      const zoned = start.add({ minutes: step }).toZonedDateTimeISO(ZONE);
      const minute = zoned.hour * 60 + zoned.minute;
      const band = SAMPLE_TARIFF.bands.find((one) => one.weekdays.includes(zoned.dayOfWeek as 1) && one.fromMin <= minute && minute < one.toMin);
      øre += (kWh * (band?.price ?? NaN)) / 100;
    }
    expect(Math.abs(costFrom(curve, SAMPLE_TARIFF, start, ZONE).cost - øre)).toBeLessThanOrEqual(2);
  });
});
