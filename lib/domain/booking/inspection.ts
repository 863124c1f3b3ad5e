import { Temporal } from "temporal-polyfill";
import type { Outage } from "@/lib/domain/booking/clash";
import type { Equipment } from "@/lib/domain/booking/equipment";
import type { BusySpan } from "@/lib/domain/booking/run-question";
import { showDayWithYear } from "@/lib/domain/time/show-time";

/** What has no known end is out for as long as anybody plans. */
export const FOR_GOOD = Temporal.Instant.from("2200-01-01T00:00:00Z");

/** The end of the last day on which a piece may be used before its inspection; undefined when none is due. */
export function inspectedBy({ inspectionDue }: Equipment, timeZone: string): Temporal.Instant | undefined {
  if (inspectionDue === undefined || inspectionDue === null) return undefined;
  return Temporal.PlainDate.from(inspectionDue).add({ days: 1 }).toZonedDateTime(timeZone).toInstant();
}

/** Equipment cannot be had from the day after its inspection falls due, until somebody enters the next date. */
export function inspectionSpans(equipment: readonly Equipment[], timeZone: string): readonly BusySpan[] {
  return equipment.flatMap((piece) => {
    const start = inspectedBy(piece, timeZone);
    return start === undefined ? [] : [{ equipmentId: piece.equipmentId, start, end: FOR_GOOD, holder: inspectionText(piece) }];
  });
}

/** The same for runs that stand already. */
export function inspectionOutages(equipment: readonly Equipment[], timeZone: string): readonly Outage[] {
  return equipment.flatMap((piece) => {
    const from = inspectedBy(piece, timeZone);
    return from === undefined ? [] : [{ outageId: `inspection-${piece.equipmentId}`, equipmentId: piece.equipmentId, from, to: null, reason: inspectionText(piece) }];
  });
}

/** "the inspection that is due by Sun 14 Mar 2027". */
export function inspectionText({ inspectionDue }: Equipment): string {
  return `the inspection that is due by ${showDayWithYear(Temporal.PlainDate.from(inspectionDue ?? ""))}`;
}

/** Of these pieces, those that must be inspected before the horizon, as a sentence to add; empty when there are none. */
export function inspectionsDue(pieces: readonly Equipment[], timeZone: string, horizon: Temporal.Instant): string {
  const due = pieces.filter((piece) => {
    const by = inspectedBy(piece, timeZone);
    return by !== undefined && Temporal.Instant.compare(by, horizon) < 0;
  });
  if (due.length === 0) return "";
  return ` ${due.map((piece) => `${piece.name} waits for ${inspectionText(piece)}`).join("; ")}.`;
}
