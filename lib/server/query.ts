import type { Temporal } from "temporal-polyfill";
import { can, type Capability } from "@/lib/domain/access/roles";
import { now } from "@/lib/server/clock";
import { inWorkshop, type Tx } from "@/lib/server/db";
import type { Who } from "@/lib/server/who";

export type Reading = { readonly who: Who; readonly tx: Tx; readonly now: Temporal.Instant };

type Spec<I, O> = {
  readonly name: string;
  readonly needs: Capability;
  readonly run: (reading: Reading, input: I) => Promise<O>;
};

export type Query<I, O> = { (who: Who, input: I): Promise<O>; readonly spec: Spec<I, O> };

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

export class NotAllowed extends Error {
  constructor(what: string) {
    super(`not allowed: ${what}`);
  }
}
