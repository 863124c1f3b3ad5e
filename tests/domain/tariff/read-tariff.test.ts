import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimalOf, decimalText, moneyText } from "@/lib/domain/tariff/money";
import { readTariff } from "@/lib/domain/tariff/read-tariff";
import type { Weekday } from "@/lib/domain/time/staffed-hours";

const ALL: readonly Weekday[] = [1, 2, 3, 4, 5, 6, 7];
const typed = (prices: readonly string[], over: { currency?: string; standingPerDay?: string } = {}) => readTariff({
  currency: "DKK", standingPerDay: "", ...over,
  bands: prices.map((price, at) => ({ name: `Band ${at}`, weekdays: ALL, fromMin: (at * 1440) / prices.length, toMin: ((at + 1) * 1440) / prices.length, price })),
});

describe("a typed tariff", () => {
  it("is kept in whole numbers at the smallest scale that holds every price", () => {
    expect(typed(["2,4567", "1.84"])).toMatchObject({ ok: true, value: { scale: 2, bands: [{ price: 24567 }, { price: 18400 }], standingPerDay: null } });
    expect(typed(["2", "1.8"])).toMatchObject({ ok: true, value: { scale: 0, bands: [{ price: 200 }, { price: 180 }] } });
    expect(typed(["2.00"], { standingPerDay: "0.125" })).toMatchObject({ ok: true, value: { scale: 1, bands: [{ price: 2000 }], standingPerDay: 125 } });
  });

  it("follows the currency's own smallest coin (ISO 4217)", () => {
    expect(typed(["31.5"], { currency: "JPY" })).toMatchObject({ ok: true, value: { scale: 1, bands: [{ price: 315 }] } });
    expect(typed(["0.025"], { currency: "KWD" })).toMatchObject({ ok: true, value: { scale: 0, bands: [{ price: 25 }] } });
  });

  it.each([["-1"], ["NaN"], [""], ["two"], ["1e3"], ["1 200"], ["1.2.3"], ["0.1234567"], ["9999999999999999"]])("refuses a price of “%s” at its field", (price) => {
    expect(typed([price])).toMatchObject({ ok: false, problems: [{ field: "bands.0.price", value: price }] });
  });

  it("takes six decimals of a crown and no seventh", () => {
    expect(typed(["0.123456"])).toMatchObject({ ok: true, value: { scale: 4, bands: [{ price: 123456 }] } });
    expect(typed(["1"], { standingPerDay: "-2" })).toMatchObject({ ok: false, problems: [{ field: "standingPerDay" }] });
  });
});

describe("money as text", () => {
  it("goes through whole numbers and back without a change", () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 1e9 }), fc.integer({ min: 0, max: 6 }), (digits, decimals) => {
      const back = decimalOf(decimalText(digits, decimals));
      expect(back && back.digits * 10 ** (decimals - back.decimals)).toBe(digits);
    }));
  });

  it("is written in the main unit with its code", () => {
    expect(moneyText(123456, "DKK")).toBe("DKK\u00a01234.56");
    expect(moneyText(5, "EUR")).toBe("EUR\u00a00.05");
    expect(moneyText(1234, "JPY")).toBe("JPY\u00a01234");
  });
});
