import { Temporal } from "temporal-polyfill";
import type { Kiln } from "@/lib/domain/booking/equipment";
import { firstEndingAfter, peakWithin } from "@/lib/domain/booking/free-time";
import type { RunNeeds } from "@/lib/domain/booking/run-needs";
import { MAX_DAYS_FROM_STEAM_TO_LOAD } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { Try } from "@/lib/domain/booking/run-search";
import { windowAfter, type SearchSpace } from "@/lib/domain/booking/search-space";
import type { Problem } from "@/lib/domain/refusal";
import { MS_PER_HOUR, MS_PER_MINUTE } from "@/lib/domain/time/interval";
import { showHours, showTime } from "@/lib/domain/time/show-time";

type Blocked = Extract<Try, { readonly obstacle: unknown }>;

/** Names what forbids a run whose loading starts at `loadStart`, who holds it, and until when. */
export function obstacleProblem(question: RunQuestion, space: SearchSpace, kiln: Kiln, needs: RunNeeds, blocked: Blocked, loadStart: number): Problem {
  switch (blocked.obstacle) {
    case "load":
      return loadProblem(question, space, kiln, needs, loadStart);
    case "kiln":
      return kilnProblem(question, space, kiln, blocked.retryAt, loadStart);
    case "power":
      return powerProblem(question, space, kiln, needs, blocked.retryAt);
    case "steam":
      return steamProblem(space, needs, loadStart);
    case "unload":
    case "horizon":
      return {
        code: "past-horizon",
        field: "kilnStart",
        message: `${kiln.name} would not be unloaded and free again before ${show(space, space.horizon)}, as far as can be booked; the firing holds it for ${showHours(needs.reservationHours)}.`,
      };
    default:
      return blocked.obstacle satisfies never;
  }
}

function loadProblem(question: RunQuestion, space: SearchSpace, kiln: Kiln, needs: RunNeeds, start: number): Problem {
  const end = start + needs.load.minutes * MS_PER_MINUTE;
  const span = `${show(space, start)} to ${showClockOf(space, end)}`;
  const window = windowAfter(space, start);
  if (window === undefined || window.start > start || window.end < end) {
    return { code: "unstaffed", field: "kilnStart", message: `Loading ${kiln.name} takes ${needs.load.minutes} minutes, and ${span} is not within staffed hours.` };
  }
  const taken = peakWithin(space.handsTaken(window), start, end);
  if (taken + needs.load.hands > window.hands) {
    const busy = taken > 0 ? `, ${taken} of them busy with other lifts` : "";
    return { code: "thin-crew", field: "kilnStart", message: `Loading takes ${needs.load.hands} people; ${span} has ${window.hands} on duty${busy}.` };
  }
  const held = needs.load.trolleys.map((trolley) => {
    const until = space.busyOf(trolley.equipmentId)[firstEndingAfter(space.busyOf(trolley.equipmentId), start)]?.end ?? start;
    const holders = holdersOf(question, trolley.equipmentId, start, end);
    return { text: `${trolley.name}${byWhom(holders)} ${untilText(space, until)}`, until, holders };
  });
  const until = Math.min(...held.map((one) => one.until));
  return {
    code: "trolley-taken",
    field: "kilnStart",
    message: `Every trolley rated for this load is taken: ${held.map((one) => one.text).join("; ")}.`,
    data: { until: iso(until), holders: [...new Set(held.flatMap(({ holders }) => holders))] },
  };
}

function kilnProblem(question: RunQuestion, space: SearchSpace, kiln: Kiln, until: number, start: number): Problem {
  const holders = holdersOf(question, kiln.equipmentId, start, until);
  return {
    code: "kiln-taken",
    field: "kilnStart",
    message: `${kiln.name} is taken${byWhom(holders)} ${untilText(space, until)}, and this run needs it before then.`,
    data: { equipmentId: kiln.equipmentId, until: iso(until), holders },
  };
}

function powerProblem(question: RunQuestion, space: SearchSpace, kiln: Kiln, needs: RunNeeds, retryAt: number): Problem {
  const until = retryAt + needs.load.minutes * MS_PER_MINUTE;
  const names = new Map(question.equipment.map((item) => [item.equipmentId, item.name]));
  const others = [...new Set([...question.heating, ...(question.heaters ?? [])].filter((span) => span.end.epochMilliseconds === until).map((span) => names.get(span.kilnId) ?? span.kilnId))];
  const beside = others.length > 0 ? ` beside ${others.join(" and ")}` : "";
  return {
    code: "overload",
    field: "kilnStart",
    message: `${kiln.name} with ${kiln.limits.powerKw} kW would heat${beside} above the electrician's limit of ${question.powerLimitKw ?? 0} kW until ${show(space, until)}.`,
    data: { until: iso(until) },
  };
}

function steamProblem(space: SearchSpace, needs: RunNeeds, loadStart: number): Problem {
  const by = loadStart - needs.gapHours * MS_PER_HOUR;
  return {
    code: "no-steam-out",
    field: "kilnStart",
    message: `The wax must be steamed out by ${show(space, by)}, at most ${MAX_DAYS_FROM_STEAM_TO_LOAD} days before loading, and no steamer with people to attend it is free for ${showHours(needs.steam?.hours ?? 0)} before that.`,
  };
}

/** Everything that holds it within the span and is named, e.g. "Ida's Seal" and "new elements". */
function holdersOf(question: RunQuestion, equipmentId: string, start: number, end: number): readonly string[] {
  const holders = question.busy
    .filter((busy) => busy.equipmentId === equipmentId)
    .filter((busy) => (busy.loadingFrom ?? busy.start).epochMilliseconds < end && busy.end.epochMilliseconds > start)
    .map((busy) => busy.holder)
    .filter((holder) => holder !== undefined);
  return [...new Set(holders)];
}

function byWhom(holders: readonly string[]): string {
  return holders.length === 0 ? "" : ` by ${holders.join(" and ")}`;
}

function show(space: SearchSpace, epochMs: number): string {
  return showTime(Temporal.Instant.fromEpochMilliseconds(Math.ceil(epochMs)), space.timeZone);
}

function untilText(space: SearchSpace, until: number): string {
  return until > space.horizon ? "until further notice" : `until ${show(space, until)}`;
}

function showClockOf(space: SearchSpace, epochMs: number): string {
  return show(space, epochMs).slice(-5);
}

function iso(epochMs: number): string {
  return Temporal.Instant.fromEpochMilliseconds(Math.ceil(epochMs)).toString();
}
