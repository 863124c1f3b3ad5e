import ICAL from "ical.js";
import { Temporal } from "temporal-polyfill";

export type ReadEvent = {
  readonly uid: string;
  readonly sequence: number;
  readonly status: string;
  readonly summary: string;
  readonly location: string | null;
  readonly description: string | null;
  /** ISO instants, or days for an entry of whole days. */
  readonly start: string;
  readonly end: string;
  readonly zone: string;
  readonly stamp: string;
  readonly lastModified: string;
};

/** A calendar as an independent parser reads it, by the time zones that it brings along itself. */
export function readIcs(text: string): readonly ReadEvent[] {
  ICAL.TimezoneService.reset();
  const calendar = new ICAL.Component(ICAL.parse(text));
  for (const zone of calendar.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(new ICAL.Timezone(zone));
  return calendar.getAllSubcomponents("vevent").map((component): ReadEvent => {
    const event = new ICAL.Event(component);
    return {
      uid: event.uid,
      sequence: event.sequence,
      status: String(component.getFirstPropertyValue("status")),
      summary: event.summary,
      location: event.location,
      description: event.description,
      start: moment(event.startDate),
      end: moment(event.endDate),
      zone: event.startDate.zone.tzid,
      stamp: time(component, "dtstamp"),
      lastModified: time(component, "last-modified"),
    };
  });
}

function time(component: ICAL.Component, name: string): string {
  const value = component.getFirstPropertyValue(name);
  if (!(value instanceof ICAL.Time)) throw new Error(`no ${name}`);
  return moment(value);
}

function moment(value: ICAL.Time): string {
  return value.isDate ? value.toString() : Temporal.Instant.fromEpochMilliseconds(value.toUnixTime() * 1000).toString();
}
