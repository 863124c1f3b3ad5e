import { describe, expect, it } from "vitest";
import { checkTariff } from "@/lib/domain/tariff/check-tariff";
import type { Band, Tariff } from "@/lib/domain/tariff/tariff";
import { FLAT, SAMPLE_TARIFF } from "./sample-tariff";

function problems(over: Partial<Tariff>, base = SAMPLE_TARIFF) {
  const outcome = checkTariff({ ...base, ...over });
  return outcome.ok ? [] : outcome.problems;
}

const [any] = FLAT.bands as [Band];
const withBands = (...bands: Partial<Band>[]) => problems({ bands: bands.map((band) => ({ ...any, ...band })) }, FLAT);

describe("a tariff", () => {
  it("that prices every minute of the week once is taken", () => {
    expect(problems({})).toEqual([]);
    expect(problems({}, FLAT)).toEqual([]);
  });

  it("with a gap names the hours without a price", () => {
    expect(withBands({ toMin: 1439 })).toHaveLength(7);
    expect(withBands({ toMin: 1439 })[0]).toMatchObject({ code: "gap", message: "Monday 23:59 to 24:00 has no price; every hour of the week needs one." });
    expect(withBands({ weekdays: [1, 2, 3, 4, 5] })).toMatchObject([{ code: "gap", value: "Saturday 00:00 to Sunday 24:00" }]);
  });

  it("with bands that overlap names the hours and both, also when one lies within the other", () => {
    const all = any.weekdays;
    expect(withBands({ name: "A", toMin: 721 }, { name: "B", weekdays: all, fromMin: 720 })[0]).toMatchObject({ code: "bands-overlap", field: "bands.1.from", message: "Monday 12:00 to 12:01 has two prices, A and B; let them only touch." });
    expect(withBands({ name: "A" }, { name: "B", weekdays: [3], fromMin: 60, toMin: 120 })).toMatchObject([{ code: "bands-overlap", value: "Wednesday 01:00 to 02:00" }]);
    expect(withBands({ name: "A", toMin: 720 }, { name: "B", fromMin: 720 })).toEqual([]);
  });

  it.each([[-1, "out-of-range"], [NaN, "out-of-range"], [Infinity, "out-of-range"], [0.5, "out-of-range"], [1e12 + 1, "out-of-range"]])("with a price of %d is refused at its field", (price, code) => {
    expect(withBands({ price })).toMatchObject([{ code, field: "bands.0.price" }]);
  });

  it.each([[0], [1e12]])("may ask %d", (price) => {
    expect(withBands({ price })).toEqual([]);
  });

  it.each([["ends before it starts", { fromMin: 720, toMin: 719 }], ["has no length", { fromMin: 720, toMin: 720 }], ["runs past midnight", { toMin: 1441 }], ["starts before it", { fromMin: -1 }], ["is no number", { toMin: NaN }]])("with a band that %s is refused", (_what, over) => {
    expect(withBands(over)).toMatchObject([{ code: "ends-before-start", field: "bands.0.to" }]);
  });

  it("with one name at two prices, no name, no day, no band, a wrong currency or scale is refused", () => {
    expect(withBands({ name: "A", toMin: 60 }, { name: "A", fromMin: 60, price: 1 })).toMatchObject([{ code: "two-prices", field: "bands.1.price" }]);
    expect(withBands({ name: "  " })).toMatchObject([{ code: "missing", field: "bands.0.name" }]);
    expect(withBands({ weekdays: [] })).toMatchObject([{ code: "missing", field: "bands.0.weekdays" }]);
    expect(problems({ bands: [] })).toMatchObject([{ field: "bands" }]);
    for (const currency of ["kr", "eur", "EURO", ""]) expect(problems({ currency })).toMatchObject([{ code: "unknown-currency" }]);
    for (const scale of [-1, 5, 0.5, NaN]) expect(problems({ scale })).toMatchObject([{ field: "scale" }]);
    expect(problems({ standingPerDay: -1 })).toMatchObject([{ field: "standingPerDay" }]);
  });
});
