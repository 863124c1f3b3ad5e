import { clockText, type StartClock } from "@/app/_components/stage-table";
import { numberText } from "@/app/_components/number-text";
import type { BodyRow } from "@/lib/domain/firing/history-rows";
import { showHours } from "@/lib/domain/time/show-time";

/** "Mon 7 Dec, 09:30" where a start is booked, else "2 days 4 hours after closing". */
export function momentText(h: number, startClock: StartClock | undefined): string {
  if (startClock !== undefined) return clockText(startClock, h);
  return h < 0.5 ? "at closing" : `${showHours(h)} after closing`;
}

export function stressText(MPa: number): string {
  const size = numberText(Math.abs(MPa), 2);
  if (size === "0.00") return "0.00 MPa";
  return `${size} MPa ${MPa > 0 ? "tension" : "compression"}`;
}

/** What one moment is like, in a sentence. Stress is only told once there is glass to have it. */
export function rowText(row: BodyRow, hasGlass: boolean, startClock: StartClock | undefined): string {
  const heat = `kiln ${numberText(row.kilnC)} °C, surface ${numberText(row.surfaceC)} °C, core ${numberText(row.coreC)} °C`;
  const stress = hasGlass ? `surface ${stressText(row.surfaceMPa)}, core ${stressText(row.centreMPa)}` : "the glass is not in its place yet";
  return `${momentText(row.h, startClock)}: ${heat}; ${stress}.`;
}
