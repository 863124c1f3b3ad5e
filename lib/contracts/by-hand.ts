import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { placeText, readPlaces, triedOf, type AskedPlace, type TriedWay } from "@/lib/contracts/ways-out";

/** A settlement that is edited: a way out as it was shown, or the plan of a season; and where runs are put by hand. */
export type ByHand = { readonly base: { readonly way: TriedWay } | { readonly replanId: string }; readonly puts: readonly AskedPlace[] };

type Params = Readonly<Record<string, string | readonly string[] | undefined>>;

/** Reads the address; a run, a kiln and a day from the form count as one more put. Null when it names no settlement. */
export function readByHand(params: Params): ByHand | null {
  const one = (name: string): string => [params[name] ?? ""].flat()[0] ?? "";
  const way = triedOf(one("tried"), readPlaces(params, "move"));
  const base = isId(one("season")) ? { replanId: one("season") } : way === null ? null : { way };
  if (base === null) return null;
  const typed = readPlaces({ put: placeText({ runId: one("run"), kilnId: one("kiln"), day: one("day") }) }, "put");
  return { base, puts: withPuts([...readPlaces(params, "put"), ...typed]) };
}

/** The last word on every run. */
function withPuts(puts: readonly AskedPlace[]): AskedPlace[] {
  return puts.filter(({ runId }, i) => !puts.slice(i + 1).some((later) => later.runId === runId));
}

/** The address of a settlement under edit, name by name: a form that adds to it posts them beside its own fields. */
export function byHandParams({ base, puts }: ByHand): readonly (readonly [name: string, value: string])[] {
  const of = "way" in base ? wayParams(base.way) : ([["season", base.replanId]] as const);
  return [...of, ...puts.map((put) => ["put", placeText(put)] as const)];
}

function wayParams({ aim, cost, moves }: TriedWay): readonly (readonly [string, string])[] {
  return [["tried", `${aim}_${Math.round(cost * 1e4) / 1e4}`], ...moves.map((move) => ["move", placeText(move)] as const)];
}

export function byHandHref(edited: ByHand): string {
  return `${paths.byHand}?${new URLSearchParams(byHandParams(edited).map(([name, value]) => [name, value])).toString()}`;
}
