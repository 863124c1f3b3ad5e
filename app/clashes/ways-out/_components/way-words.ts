import { Temporal } from "temporal-polyfill";
import type { MoveChange } from "@/lib/domain/settling/clash/difference";
import type { Figures, Move, Settlement } from "@/lib/domain/settling/clash/settlement";
import type { Aim } from "@/lib/domain/settling/clash/weights";

export const AIM_WORDS: Readonly<Record<Aim, { readonly title: string; readonly lead: string }>> = {
  "least-late": { title: "Keep the dates", lead: "As few days as possible after the dates things are needed by, those that matter more first." },
  "fewest-moved": { title: "Move the fewest", lead: "As few booked runs as possible get another day or kiln." },
  "quiet-weeks": { title: "Leave the next two weeks", lead: "As little as possible changes in the two weeks that people have arranged themselves for." },
  season: { title: "The whole season", lead: "Days late, moves and how far they go, each by its weight; nothing is looked at first." },
};

type KilnNames = ReadonlyMap<string, string>;

/** A kiln by its name, be it on the wall no more. */
export function kilnName(kilns: KilnNames, id: string): string {
  return kilns.get(id) ?? "a retired kiln";
}

/** Says where and when something goes, its day counted from `today`. */
export function placeWords(kilns: KilnNames, today: string, say: (day: string) => string): (where: { readonly kilnId: string; readonly day: number }) => string {
  return ({ kilnId, day }) => `${kilnName(kilns, kilnId)}, ${say(Temporal.PlainDate.from(today).add({ days: day }).toString())}`;
}

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** A settlement's totals, a line each. */
export function figureWords({ moved, peopleMoved, asksPlaced, late, daysLate, otherKilns, daysMoved, nearChanges }: Figures): readonly string[] {
  return [
    moved === 0 ? "No booked run moves" : `${counted(moved, "booked run moves", "booked runs move")}, of ${counted(peopleMoved, "person", "people")}, ${counted(daysMoved, "day", "days")} in all`,
    ...(asksPlaced === 0 ? [] : [`${counted(asksPlaced, "ask is", "asks are")} booked`]),
    late === 0 ? "Every date is kept" : `${counted(late, "date is", "dates are")} missed, by ${counted(daysLate, "day", "days")} in all`,
    ...(otherKilns === 0 ? [] : [`${counted(otherKilns, "run goes", "runs go")} to another kiln`]),
    nearChanges === 0 ? "Nothing changes in the next two weeks" : `${counted(nearChanges, "change", "changes")} in the next two weeks`,
  ];
}

/** How far from the best possible a way can be at most. */
export function distanceWords({ atMostPercent }: Pick<Settlement, "atMostPercent">): string {
  if (atMostPercent === 0) return "Proven: nothing better is possible.";
  return atMostPercent === null ? "Not known yet how far from the best possible." : `At most ${atMostPercent} % from the best possible.`;
}

export const DISTANCE_MEANS = "If the best conceivable way cost 100 in what this one looks at, this costs no more than 100 and that figure; it may well be the best.";

/** What has changed since these figures, which stand in the address as "aim.moved.daysLate". */
export function wasWords({ figures }: Pick<Settlement, "figures">, was: string | undefined): string | undefined {
  const [, moved, daysLate] = (was ?? "").split(".").map(Number);
  if (moved === undefined || daysLate === undefined || (moved === figures.moved && daysLate === figures.daysLate)) return undefined;
  return `When you last looked: ${counted(moved, "run", "runs")} moved, ${counted(daysLate, "day", "days")} late.`;
}

export function shiftWords({ from, days }: Pick<Move, "from" | "days">): string {
  if (from === null) return "Booked for the first time.";
  if (days === 0) return "The same day, on another kiln.";
  return `${counted(Math.abs(days), "day", "days")} ${days > 0 ? "later" : "sooner"}.`;
}

export function neededWords({ neededBy, daysLate }: Pick<Move, "neededBy" | "daysLate">, say: (day: string) => string, iso: (day: number) => string): string {
  if (neededBy === null) return "Not needed by a date.";
  const date = say(iso(neededBy));
  return daysLate === 0 ? `Needed by ${date}: kept.` : `Needed by ${date}: missed by ${counted(daysLate, "day", "days")}.`;
}

export const CHANGE_BADGES: Readonly<Record<MoveChange["change"], string>> = { gone: "gone", different: "different", new: "new", same: "as it was" };

/** What became of a move; `state` says of one that is gone why, where that is known. */
export function changeWords(change: MoveChange, place: (where: { readonly kilnId: string; readonly day: number }) => string, state: string | undefined): string {
  if (change.change === "gone") return `was to go to ${place(change.before)}; ${state ?? "now it stays where it is"}.`;
  const { to, from } = change.after;
  if (change.change === "different") return `was to go to ${place(change.before)}; now to ${place(to)}.`;
  const stands = from === null ? "asked for" : place(from);
  return change.change === "new" ? `${stands} → ${place(to)}.` : `to ${place(to)}.`;
}

/** Cost then and now, in points of what the way looks at first. */
export function costWords(before: number, now: Pick<Settlement, "aim" | "cost">, aim: Aim): string {
  if (now.aim !== aim) return `Then it cost ${points(before)}. Now “${AIM_WORDS[now.aim].title}” is as good in everything, and stands for it.`;
  return `It cost ${points(before)} then and costs ${points(now.cost)} now.`;
}

export function points(cost: number): string {
  const rounded = Math.round(cost * 10) / 10;
  return `${rounded} ${rounded === 1 ? "point" : "points"}`;
}

/** Which dates are missed after an edit, against before. */
export function lateWords(before: Pick<Settlement, "moves" | "cost" | "figures">, after: Pick<Settlement, "moves" | "cost" | "figures">): string {
  const change = Math.round((after.cost - before.cost) * 10) / 10;
  const cost = change === 0 ? "It costs the same." : `It costs ${points(Math.abs(change))} ${change > 0 ? "more" : "less"}.`;
  const late = after.moves.filter(({ daysLate }) => daysLate > 0).map(({ title, daysLate }) => `${title} by ${counted(daysLate, "day", "days")}`);
  if (after.figures.late === 0) return `${cost} Every date is kept.`;
  const others = after.figures.late - late.length;
  const said = [...late, ...(others === 0 ? [] : [counted(others, "run that does not move", "runs that do not move")])];
  return `${cost} Missed: ${said.join(", ")}.`;
}
