import { Temporal } from "temporal-polyfill";
import { IMPORTANCE } from "@/lib/contracts/runs";
import { showDate } from "@/lib/domain/time/show-time";
import type { AskLine } from "@/lib/server/queries/asks";

const day = (iso: string): string => showDate(Temporal.PlainDate.from(iso));

/** "Any kiln that fits, begun on Mon 3 May or later, needed by Fri 2 Jul or up to 7 days later; it matters." */
export function wantedWords({ kilnName, notBefore, neededBy, lateDays, importance }: Pick<AskLine, "kilnName" | "notBefore" | "neededBy" | "lateDays" | "importance">): string {
  const parts = [kilnName ?? "Any kiln that fits"];
  if (notBefore !== null) parts.push(`begun on ${day(notBefore)} or later`);
  if (neededBy !== null) parts.push(`needed by ${day(neededBy)}${lateDays === 0 ? "" : ` or up to ${lateDays === 1 ? "a day" : `${lateDays} days`} later`}`);
  return `${parts.join(", ")}; ${IMPORTANCE.find((one) => one.value === importance)?.label.toLowerCase() ?? "it matters"}`;
}

/** Where an ask stands, in a word or two for a badge. */
export function stateWords({ offer, holdsItself, place, waiting }: Pick<AskLine, "offer" | "holdsItself" | "place"> & { readonly waiting: number }): string {
  if (offer !== null) return "offered";
  if (holdsItself) return "has a run for now";
  return `waiting, ${place} of ${waiting}`;
}
