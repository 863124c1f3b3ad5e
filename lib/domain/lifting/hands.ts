import { filterFigure, teamCapabilityKg, type Zone } from "./hse-filter";

export type Flag = "none" | "amber" | "red";

export type Hands = {
  /** People. With a mechanical aid: the two who guide it. */
  readonly hands: number;
  readonly mechanicalAid: boolean;
  /** "amber": above what one person should lift alone. "red": above what three can, an aid is needed. */
  readonly flag: Flag;
  /** The most this answer covers, kg; for a mechanical aid the aid's own rating decides instead. */
  readonly coversKg: number | undefined;
};

/**
 * How many people a mass asks for in a zone, by the cautious filter figure for one and the team rule
 * for two and three: between knuckle and elbow, close to the body, 16, 21.3 and 24 kg. Above three
 * people a mechanical aid is needed and two people guide it; four are never offered, since no
 * published rule covers them. No answer calls a lift safe.
 *
 * A mass that is not a number gets the most careful answer.
 * @example handsFor(18, { height: "knuckle-elbow", reach: "near" }).hands // 2
 */
export function handsFor(kg: number, zone: Zone): Hands {
  const oneKg = filterFigure(zone).cautiousKg;
  for (const people of [1, 2, 3]) {
    const team = teamCapabilityKg(Array.from({ length: people }, () => oneKg));
    // Written so that NaN falls through to the mechanical aid.
    if (team.ok && kg <= team.value) {
      return { hands: people, mechanicalAid: false, flag: people === 1 ? "none" : "amber", coversKg: team.value };
    }
  }
  return { hands: 2, mechanicalAid: true, flag: "red", coversKg: undefined };
}
