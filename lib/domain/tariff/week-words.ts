import { MINUTES_PER_DAY } from "./tariff";

export const WEEKDAY_NAMES = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;

/** "06:30", and "24:00" for the end of a day. */
export function clockOfMinutes(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/** "Wednesday 06:30" of minutes after Monday 00:00. */
export function weekTime(minutes: number): string {
  const day = Math.floor(minutes / MINUTES_PER_DAY) % 7;
  return `${WEEKDAY_NAMES[day] ?? ""} ${clockOfMinutes(minutes % MINUTES_PER_DAY)}`;
}

/** "Monday 22:00 to 24:00", or with both days; an end at midnight is the 24:00 of the day it ends. */
export function weekStretch(fromMin: number, toMin: number): string {
  const [first, last] = [fromMin, toMin - 1].map((minute) => Math.floor(minute / MINUTES_PER_DAY));
  const end = clockOfMinutes(toMin - (last ?? 0) * MINUTES_PER_DAY);
  return `${weekTime(fromMin)} to ${first === last ? end : `${WEEKDAY_NAMES[(last ?? 0) % 7] ?? ""} ${end}`}`;
}
