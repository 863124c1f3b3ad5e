import type { ClashGround } from "@/lib/domain/settling/clash/clash-ground";
import type { DaySlots } from "@/lib/domain/settling/clash/day-slots";
import type { DayJob, DayProblem } from "@/lib/domain/settling/days/day-problem";

/**
 * The room of each day in its slots: lifts first where those that stand are, and what is left in equal parts; steamers
 * in the last slot with people, so that what is steamed on a day is loaded on a later one.
 */
export function slotRoom({ kilns, liftsOn, steamersOn }: ClashGround, slots: DaySlots, jobs: readonly DayJob[]): Pick<DayProblem, "opsOn" | "steamsOn"> {
  const { perDay, count, hands } = slots;
  const standing = new Array<number>(count).fill(0);
  for (const { standing: place, stays } of jobs) {
    if (place === null || kilns[place.kiln] === undefined) continue;
    for (const slot of [place.start, stays?.[place.kiln]?.free[place.start] ?? -1]) if (slot >= 0 && slot < count) standing[slot]!++;
  }
  const opsOn = new Array<number>(count).fill(0);
  const steamsOn = new Array<number>(count).fill(0);
  for (let first = 0; first < count; first += perDay) {
    const own = Array.from({ length: perDay }, (_, part) => first + part).filter((slot) => hands[slot]! > 0);
    // After the season kilns only come free.
    let left = liftsOn[first / perDay] ?? jobs.length;
    for (const slot of own) left -= opsOn[slot] = Math.min(standing[slot]!, left);
    for (const slot of own) opsOn[slot]! += Math.ceil(left / own.length);
    const last = own.at(-1);
    if (last !== undefined) steamsOn[last] = steamersOn[first / perDay] ?? 0;
  }
  return { opsOn, steamsOn };
}

/**
 * What stands without a clash is possible, whatever the sums of its slots say. On days that clash there is less room
 * than what stands needs, by the sums of days.
 */
export function withStandingPower(ground: ClashGround, left: readonly number[] | null, jobs: readonly DayJob[], perDay: number): number[] | null {
  if (left === null || ground.powerLeftKw === null) return null;
  const slots = new Array<number>(left.length).fill(0);
  const days = new Array<number>(ground.powerLeftKw.length).fill(0);
  jobs.forEach(({ standing, stays }, i) => {
    if (standing === null) return;
    const kw = ground.kilns[standing.kiln]?.powerKw ?? 0;
    const day = Math.floor(standing.start / perDay);
    for (let at = day; at < Math.min(days.length, day + (ground.runs[i]?.heatingDays ?? 0)); at++) days[at]! += kw;
    for (let at = standing.start; at < standing.start + (stays?.[standing.kiln]?.heats[standing.start] ?? 0); at++) slots[at]! += kw;
  });
  return left.map((room, slot) => {
    const day = Math.floor(slot / perDay);
    return days[day]! > (ground.powerLeftKw?.[day] ?? Infinity) + 1e-6 ? room : Math.max(room, slots[slot]!);
  });
}
