import { Temporal } from "temporal-polyfill";

/** What an instant of change needs to know: the clock was `before` ahead of UTC until `at`, and `after` from then on. */
type Change = { readonly at: Temporal.Instant; readonly beforeNs: number; readonly afterNs: number };

const NS_PER_SECOND = 1e9;
const LONGEST_SUMMER_DAYS = 366;

/**
 * The rules of a time zone from one instant to another as a VTIMEZONE (RFC 5545, 3.6.5), lines ending in CRLF. Every
 * change of the clocks in that time stands for itself, with the one in force at its beginning: no rule is guessed from
 * the past, so what governments have changed is right as soon as the zone data of the machine know it.
 */
export function vtimezone(timeZone: string, from: Temporal.Instant, to: Temporal.Instant): string {
  const changes = changesOf(timeZone, from, to);
  const observances = changes.length === 0 ? [always(timeZone, from)] : changes.map((change) => observance(timeZone, change));
  return [["BEGIN:VTIMEZONE", `TZID:${timeZone}`], ...observances, ["END:VTIMEZONE", ""]].flat().join("\r\n");
}

function changesOf(timeZone: string, from: Temporal.Instant, to: Temporal.Instant): readonly Change[] {
  const changes: Change[] = [];
  // A nanosecond later, because the clocks may change at that very instant.
  let next = from.add({ nanoseconds: 1 }).toZonedDateTimeISO(timeZone).getTimeZoneTransition("previous") ?? nextChange(from, timeZone);
  while (next !== null && Temporal.Instant.compare(next.toInstant(), to) <= 0) {
    const at = next.toInstant();
    const before = at.subtract({ nanoseconds: 1 }).toZonedDateTimeISO(timeZone);
    changes.push({ at, beforeNs: before.offsetNanoseconds, afterNs: next.offsetNanoseconds });
    next = nextChange(at, timeZone);
  }
  return changes;
}

function nextChange(after: Temporal.Instant, timeZone: string): Temporal.ZonedDateTime | null {
  return after.toZonedDateTimeISO(timeZone).getTimeZoneTransition("next");
}

/** Summer time is what goes forward and comes back within a year; anything else is the zone's standard. */
function isSummer({ at, beforeNs, afterNs }: Change, timeZone: string): boolean {
  const back = nextChange(at, timeZone);
  if (!(afterNs > beforeNs) || back === null) return false;
  return back.offsetNanoseconds < afterNs && at.until(back.toInstant()).total("hours") <= LONGEST_SUMMER_DAYS * 24;
}

/** It begins at the wall-clock time that the clocks showed, or would have shown, without the change. */
function observance(timeZone: string, change: Change): readonly string[] {
  const kind = isSummer(change, timeZone) ? "DAYLIGHT" : "STANDARD";
  const wall = change.at.add({ nanoseconds: change.beforeNs }).toZonedDateTimeISO("UTC").toPlainDateTime();
  return [`BEGIN:${kind}`, `DTSTART:${basic(wall)}`, `TZOFFSETFROM:${offset(change.beforeNs)}`, `TZOFFSETTO:${offset(change.afterNs)}`, `END:${kind}`];
}

/** A zone whose clocks have never changed, such as Etc/UTC. */
function always(timeZone: string, at: Temporal.Instant): readonly string[] {
  const ahead = offset(at.toZonedDateTimeISO(timeZone).offsetNanoseconds);
  return ["BEGIN:STANDARD", "DTSTART:19700101T000000", `TZOFFSETFROM:${ahead}`, `TZOFFSETTO:${ahead}`, "END:STANDARD"];
}

function basic(wall: Temporal.PlainDateTime): string {
  return wall.toString({ smallestUnit: "second" }).replaceAll(/[-:]/g, "");
}

/** "+0100"; with seconds where local mean time once had them. */
function offset(nanoseconds: number): string {
  const seconds = Math.abs(Math.round(nanoseconds / NS_PER_SECOND));
  const two = (value: number) => String(Math.trunc(value)).padStart(2, "0");
  const odd = seconds % 60 === 0 ? "" : two(seconds % 60);
  return `${nanoseconds < 0 ? "-" : "+"}${two(seconds / 3600)}${two((seconds % 3600) / 60)}${odd}`;
}
