import { describe, expect, it } from "vitest";
import { instantOfWallTime } from "@/lib/domain/time/wall-time";

const COPENHAGEN = "Europe/Copenhagen";

function utc(text: string, timeZone = COPENHAGEN): string | undefined {
  const outcome = instantOfWallTime(text, timeZone, "from");
  return outcome.ok ? outcome.value.toString() : outcome.problems[0].code;
}

// The clocks of the European Union change at 01:00 UTC on the last Sundays of March and October
// (Directive 2000/84/EC); in 2027 those are 28 March and 31 October.
describe("a wall-clock time of the workshop", () => {
  it("is read in the workshop's zone, winter and summer", () => {
    expect(utc("2027-01-14T09:30")).toBe("2027-01-14T08:30:00Z");
    expect(utc("2027-07-14T09:30")).toBe("2027-07-14T07:30:00Z");
    expect(utc("2027-07-14T09:30", "America/Halifax")).toBe("2027-07-14T12:30:00Z");
  });

  it("stands just before and just after the skipped hour, and is refused inside it", () => {
    expect(utc("2027-03-28T01:59")).toBe("2027-03-28T00:59:00Z");
    expect(utc("2027-03-28T02:00")).toBe("no-such-time");
    expect(utc("2027-03-28T02:59")).toBe("no-such-time");
    expect(utc("2027-03-28T03:00")).toBe("2027-03-28T01:00:00Z");
  });

  it("names the refused time, the zone and a time that exists", () => {
    const refused = instantOfWallTime("2027-03-28T02:30", COPENHAGEN, "from");
    expect(refused).toMatchObject({ ok: false, problems: [{ field: "from", value: "2027-03-28T02:30" }] });
    expect(refused.ok || refused.problems[0].message).toContain("02:30 on 2027-03-28 does not exist in Europe/Copenhagen");
    expect(refused.ok || refused.problems[0].message).toContain("03:30");
  });

  it("is its first showing when the autumn change shows it twice", () => {
    expect(utc("2027-10-31T02:30")).toBe("2027-10-31T00:30:00Z");
    expect(utc("2027-10-31T03:00")).toBe("2027-10-31T02:00:00Z");
  });

  it.each(["", "tomorrow", "2027-02-30T09:00", "2027-03-14T24:30", "2027-03-14", "2027-03-14T09:30Z", "2027-3-14T9:30"])("refuses %j", (text) => {
    expect(utc(text)).toBe("not-a-time");
  });
});
