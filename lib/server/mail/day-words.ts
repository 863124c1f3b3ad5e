import { showClock, showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import { ENTRY_WORDS, FLAG_WORDS } from "@/lib/server/feeds/entry-words";
import type { DayWork } from "@/lib/server/rows/day-work";

/** A day's loads and lifts as paragraphs of a mail, one line each. */
export function dayWords({ loads, lifts }: DayWork, timeZone: string): readonly string[] {
  return [
    ...(loads.length === 0 ? [] : [["Loads:", ...loads.map((load) => loadWords(load, timeZone))].join("\n")]),
    ...(lifts.length === 0 ? [] : [["Lifts:", ...lifts.map((lift) => liftWords(lift, timeZone))].join("\n")]),
  ];
}

function loadWords({ equipment, firing, startsAt, endsAt }: DayWork["loads"][number], timeZone: string): string {
  const castings = firing.castings.map(({ casting }) => `${casting.title} (${casting.member.name})`).join(", ");
  return `- ${showClock(toInstant(startsAt), timeZone)} ${equipment.name}: ${castings}, until ${showTime(toInstant(endsAt), timeZone)}`;
}

function liftWords({ what, casting, startsAt, kg, hands, trolley, fromPlace, toPlace, hot, wet, flag }: DayWork["lifts"][number], timeZone: string): string {
  const people = hands === 1 ? "1 person" : `${hands} people`;
  const parts = [`${Math.round(kg)} kg`, people, trolley?.name, `${fromPlace} to ${toPlace}`].filter((part) => part !== undefined);
  const cautions = [hot ? "Hot." : "", wet ? "Wet." : "", FLAG_WORDS[flag] ?? ""].filter((word) => word !== "").map((word) => ` ${word}`);
  return `- ${showClock(toInstant(startsAt), timeZone)} ${ENTRY_WORDS[what] ?? what}: ${casting.title} (${casting.member.name}), ${parts.join(", ")}.${cautions.join("")}`;
}
