import type { Clash, ClashState, OpenAsk, StandingRun } from "@/lib/domain/booking/clash";
import { clashOf, equipmentName, firingName, kilnBooking, later, sooner, staysText } from "@/lib/domain/booking/clash-names";
import { overlaps, type Interval } from "@/lib/domain/time/interval";
import { showInterval } from "@/lib/domain/time/show-time";

/** Open asks that want kiln weeks which a standing firing or another open ask wants too: one clash a pair. */
export function crowdedClashes(state: ClashState): readonly Clash[] {
  return state.asks.flatMap((ask, at) => [
    ...state.runs.flatMap((run) => askAgainstRun(state, ask, run)),
    ...state.asks.slice(at + 1).flatMap((other) => askAgainstAsk(state, ask, other)),
  ]);
}

function askAgainstRun(state: ClashState, ask: OpenAsk, run: StandingRun): Clash[] {
  const held = kilnBooking(run);
  const wished = { start: ask.from, end: ask.to };
  if (held === undefined || held.equipmentId !== ask.kilnId || !overlaps(wished, held)) return [];
  const both = shared(wished, held);
  return [
    clashOf("crowded", [ask.askId, run.firingId], both, [run], {
      equipmentIds: [ask.kilnId],
      askIds: [ask.askId],
      sentence: `${askName(ask)} asks for ${equipmentName(state, ask.kilnId)} while ${firingName(run)} holds it: ${showInterval(both, state.hours.timeZone)}.${staysText([run])}`,
    }),
  ];
}

function askAgainstAsk(state: ClashState, one: OpenAsk, other: OpenAsk): Clash[] {
  const a = { start: one.from, end: one.to };
  const b = { start: other.from, end: other.to };
  if (one.kilnId !== other.kilnId || !overlaps(a, b)) return [];
  const both = shared(a, b);
  const [first, second] = one.askId < other.askId ? [one, other] : [other, one];
  return [
    clashOf("crowded", [first.askId, second.askId], both, [], {
      equipmentIds: [one.kilnId],
      askIds: [first.askId, second.askId],
      sentence: `${askName(first)} and ${askName(second)} both ask for ${equipmentName(state, one.kilnId)}: ${showInterval(both, state.hours.timeZone)}.`,
    }),
  ];
}

function askName(ask: OpenAsk): string {
  return `${ask.memberName} (${ask.title})`;
}

function shared(a: Interval, b: Interval): Interval {
  return { start: later(a.start, b.start), end: sooner(a.end, b.end) };
}
