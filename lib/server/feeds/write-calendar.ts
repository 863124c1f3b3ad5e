import ical, { escape, ICalEventStatus, ICalEventTransparency, type ICalEventData } from "ical-generator";
import { Temporal } from "temporal-polyfill";
import type { FeedEntry, FeedTime } from "@/lib/domain/feed/feed-entry";
import { vtimezone } from "@/lib/domain/time/vtimezone";

export type FeedCalendar = {
  readonly name: string;
  readonly timeZone: string;
  /** Links lead there. */
  readonly publicUrl: string;
  readonly now: Temporal.Instant;
  readonly entries: readonly FeedEntry[];
};

/** Behind every id, so that it is unlike any other's; a name that never is a host (RFC 2606), whatever host serves the feed. */
const UID_DOMAIN = "lehrbook.invalid";
const ASK_AGAIN_SECONDS = 3600;

/**
 * A calendar as RFC 5545 wants it: the same bytes for the same entries, whenever it is written. It is published without
 * a METHOD, so DTSTAMP says when an entry last changed (3.8.7.2) and not when somebody asked.
 */
export function writeCalendar({ name, timeZone, publicUrl, now, entries }: FeedCalendar): string {
  const calendar = ical({ prodId: "//Lehrbook//Lehrbook//EN", ttl: ASK_AGAIN_SECONDS });
  // The library escapes the words of events, but not the name of a calendar.
  calendar.name(escape(plain(name), false));
  calendar.x("X-WR-TIMEZONE", timeZone);
  for (const entry of [...entries].sort(byTimeAndId)) calendar.createEvent(eventOf(entry, timeZone, publicUrl));
  const instants = entries.flatMap((entry) => ("start" in entry ? [entry.start, entry.end] : []));
  const zone = vtimezone(timeZone, earliest([now, ...instants]), earliest([now, ...instants], -1));
  // Written even when there is no entry yet: a calendar must have one component at least (3.6).
  return `${calendar.toString().replace(/^(?=BEGIN:VEVENT\r$|END:VCALENDAR$)/m, () => zone)}\r\n`;
}

function eventOf(entry: FeedEntry, timeZone: string, publicUrl: string): ICalEventData {
  const url = entry.path === null ? null : new URL(entry.path, publicUrl).toString();
  return {
    id: `${entry.id}@${UID_DOMAIN}`,
    sequence: entry.sequence,
    stamp: entry.changedAt,
    lastModified: entry.changedAt,
    ...timesOf(entry, timeZone),
    // Said in words too, for programs that show a cancelled entry like any other.
    summary: plain(entry.cancelled ? `Cancelled: ${entry.title}` : entry.title),
    location: entry.place === "" ? null : { title: plain(entry.place) },
    description: plain([entry.text, url ?? ""].filter((line) => line !== "").join("\n")) || null,
    url,
    status: entry.cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
    transparency: entry.busy && !entry.cancelled ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
  };
}

/**
 * On the clock of the workshop, by its time zone. Of a time that the clocks show twice in autumn the standard means the
 * first showing (3.3.5), and readers disagree; an entry with such a time is written in UTC.
 */
function timesOf(time: FeedTime, timeZone: string) {
  if ("fromDay" in time) return { allDay: true, start: time.fromDay, end: time.toDay.add({ days: 1 }) };
  const [start, end] = [time.start.toZonedDateTimeISO(timeZone), time.end.toZonedDateTimeISO(timeZone)];
  return [start, end].every(isShownOnce) ? { start, end, timezone: timeZone } : { start: time.start, end: time.end };
}

function isShownOnce(at: Temporal.ZonedDateTime): boolean {
  const [first, second] = (["earlier", "later"] as const).map((disambiguation) => at.toPlainDateTime().toZonedDateTime(at.timeZoneId, { disambiguation }).epochMilliseconds);
  return first === second;
}

/** No control characters but the ends of lines. */
function plain(text: string): string {
  return text.replaceAll(/\r\n?/g, "\n").replaceAll(/[^\n\P{Cc}]/gu, " ");
}

function byTimeAndId(a: FeedEntry, b: FeedEntry): number {
  const [x, y] = [a, b].map((entry) => `${"start" in entry ? entry.start.toString() : entry.fromDay.toString()} ${entry.id}`);
  return (x ?? "") < (y ?? "") ? -1 : 1;
}

/** @param sign -1 for the latest instead */
function earliest(instants: readonly [Temporal.Instant, ...Temporal.Instant[]], sign = 1): Temporal.Instant {
  return instants.reduce((a, b) => (sign * Temporal.Instant.compare(a, b) <= 0 ? a : b));
}
