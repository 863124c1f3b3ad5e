import type { HourProblem } from "@/lib/domain/settling/hours/hour-problem";

/** Kilns that are the same to every ask and taken at the same times. */
export type LikeKilns = { readonly kilns: readonly number[] };

export function likeKilns({ kilns, asks, taken }: HourProblem): LikeKilns[] {
  const groups = new Map<string, number[]>();
  kilns.forEach((_, kiln) => {
    const key = JSON.stringify([asks.map((ask) => ask.hours[kiln]), taken[kiln]]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [kiln]);
    else group.push(kiln);
  });
  return [...groups.values()].map((group) => ({ kilns: group }));
}
