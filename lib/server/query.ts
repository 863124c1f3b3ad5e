import type { Temporal } from "temporal-polyfill";
import { can, type Capability } from "@/lib/domain/access/roles";
import { now } from "@/lib/server/clock";
import { inWorkshop, inWorkshopDirectly, type Tx } from "@/lib/server/db";
import type { Sql, Statements } from "@/lib/server/statements";
import type { Who } from "@/lib/server/who";

export type Reading = ReadingOf<Tx>;
export type ReadingOf<T extends Statements> = { readonly who: Who; readonly tx: T; readonly now: Temporal.Instant };

type Spec<I, O, T extends Statements = Tx> = {
  readonly name: string;
  readonly needs: Capability;
  readonly run: (reading: ReadingOf<T>, input: I) => Promise<O>;
};

/** A query that asks in statements alone, and says which of them every reading begins with. */
type DirectSpec<I, O> = Spec<I, O, Statements> & { readonly ahead: (now: Temporal.Instant, input: I, who: Who) => readonly Sql[] };

export type Query<I, O> = { (who: Who, input: I): Promise<O>; readonly spec: Omit<Spec<I, O>, "run"> };

/**
 * Makes one screen's reading. The page has already asked who is there; this asks again, so that a
 * page that forgot shows an error and never another person's data.
 * @throws NotAllowed
 */
export function query<I, O>(spec: Spec<I, O>): Query<I, O> {
  const call = async (who: Who, input: I): Promise<O> => {
    if (!can(who.roles, spec.needs)) throw new NotAllowed(spec.name);
    return inWorkshop(who.workshopId, (tx) => spec.run({ who, tx, now: now() }, input));
  };
  return Object.assign(call, { spec });
}

/** The same for what must be there at once, with fewer ways to the database and back. */
export function directQuery<I, O>(spec: DirectSpec<I, O>): Query<I, O> {
  const call = async (who: Who, input: I): Promise<O> => {
    if (!can(who.roles, spec.needs)) throw new NotAllowed(spec.name);
    const at = now();
    return inWorkshopDirectly(who.workshopId, spec.ahead(at, input, who), (tx) => spec.run({ who, tx, now: at }, input));
  };
  return Object.assign(call, { spec });
}

export class NotAllowed extends Error {
  constructor(what: string) {
    super(`not allowed: ${what}`);
  }
}
