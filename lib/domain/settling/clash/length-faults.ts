import type { ClashGround } from "@/lib/domain/settling/clash/clash-ground";
import type { Problem } from "@/lib/domain/refusal";

/** Runs that kilns are said to take, and none for a day or more: a length of 0, or none at all. One sentence each. */
export function lengthFaults({ runs, kilns }: Pick<ClashGround, "runs" | "kilns">): Problem[] {
  return runs.flatMap(({ title, daysByKiln }) => {
    const said = kilns.flatMap(({ kilnId, name }) => (Object.hasOwn(daysByKiln, kilnId) ? [{ name, days: daysByKiln[kilnId] ?? NaN }] : []));
    const [first] = said;
    if (first === undefined || said.some(({ days }) => days > 0)) return [];
    const days = Number.isNaN(first.days) ? "no number of days" : `${first.days} days`;
    return [{ code: "not-allowed", value: first.days, allowed: "1 day or more", message: `${title}: it is said to take ${days} in ${first.name}; a kiln is held for 1 day or more.` }];
  });
}
