import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { againFrom, heldUntil, isOver, isToWarn, isWorthHolding } from "@/lib/domain/booking/hold";

const at = (iso: string) => Temporal.Instant.from(iso);
const madeAt = at("2027-03-01T10:00:00Z");

describe("until when a run is held", () => {
  it("is 24 elapsed hours, or until the run begins when that is sooner", () => {
    expect(heldUntil(madeAt, at("2027-03-20T08:00:00Z")).toString()).toBe("2027-03-02T10:00:00Z");
    expect(heldUntil(madeAt, at("2027-03-02T10:00:00Z")).toString()).toBe("2027-03-02T10:00:00Z");
    expect(heldUntil(madeAt, at("2027-03-02T09:59:00Z")).toString()).toBe("2027-03-02T09:59:00Z");
  });

  it("is neither longer nor shorter when the clocks change: in the night to 28 March they show 25 hours more, to 31 October 23", () => {
    const clock = (instant: Temporal.Instant) => instant.toZonedDateTimeISO("Europe/Copenhagen").toPlainDateTime().toString();
    const [spring, autumn] = [at("2027-03-27T12:00:00Z"), at("2027-10-30T12:00:00Z")];
    expect([clock(spring), clock(heldUntil(spring, at("2028-01-01T00:00:00Z")))]).toEqual(["2027-03-27T13:00:00", "2027-03-28T14:00:00"]);
    expect([clock(autumn), clock(heldUntil(autumn, at("2028-01-01T00:00:00Z")))]).toEqual(["2027-10-30T14:00:00", "2027-10-31T13:00:00"]);
  });

  it("is over at its end and not a millisecond before", () => {
    const until = at("2027-03-02T10:00:00Z");
    expect(isOver(until, until.subtract({ milliseconds: 1 }))).toBe(false);
    expect(isOver(until, until)).toBe(true);
    expect(isOver(until, until.add({ milliseconds: 1 }))).toBe(true);
  });

  it("is not made for less than an hour", () => {
    expect(isWorthHolding(madeAt.add({ minutes: 59 }), madeAt)).toBe(false);
    expect(isWorthHolding(madeAt.add({ minutes: 60 }), madeAt)).toBe(true);
    expect(isWorthHolding(madeAt.add({ hours: 24 }), madeAt)).toBe(true);
  });

  it("is reminded of from six hours before until it is over", () => {
    const until = at("2027-03-02T10:00:00Z");
    expect(isToWarn(until, at("2027-03-02T03:59:59Z"))).toBe(false);
    expect(isToWarn(until, at("2027-03-02T04:00:00Z"))).toBe(true);
    expect(isToWarn(until, at("2027-03-02T09:59:59Z"))).toBe(true);
    expect(isToWarn(until, until)).toBe(false);
  });
});

describe("holding the same time again", () => {
  const span = (from: string, to: string) => ({ start: at(`2027-04-${from}T09:00:00Z`), end: at(`2027-04-${to}T09:00:00Z`) });
  const earlier = [{ kilnId: "north", kiln: span("05", "12"), until: at("2027-03-02T10:00:00Z") }];
  const wanted = (from: string, to: string, kilnId = "north") => ({ kilnId, kiln: span(from, to) });

  it("waits until 24 hours after the earlier hold was to end", () => {
    expect(againFrom(earlier, wanted("05", "12"), at("2027-03-03T09:59:59Z"))?.toString()).toBe("2027-03-03T10:00:00Z");
    expect(againFrom(earlier, wanted("11", "18"), madeAt)?.toString()).toBe("2027-03-03T10:00:00Z");
    expect(againFrom(earlier, wanted("05", "12"), at("2027-03-03T10:00:00Z"))).toBeUndefined();
  });

  it("is free for time that only touches it, for another kiln, and for a casting that held nothing", () => {
    expect(againFrom(earlier, wanted("12", "19"), madeAt)).toBeUndefined();
    expect(againFrom(earlier, wanted("05", "12", "south"), madeAt)).toBeUndefined();
    expect(againFrom([], wanted("05", "12"), madeAt)).toBeUndefined();
  });
});
