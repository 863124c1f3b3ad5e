import { Temporal } from "temporal-polyfill";

/** A local date from an address bar or a form; null when it is none. Never throws. */
export function readDay(text: string | undefined): Temporal.PlainDate | null {
  if (text === undefined || !/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  try {
    return Temporal.PlainDate.from(text, { overflow: "reject" });
  } catch {
    return null;
  }
}
