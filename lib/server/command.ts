import type { Temporal } from "temporal-polyfill";
import type { z } from "zod";
import { problemsOf } from "@/lib/contracts/problems";
import { can, type Capability } from "@/lib/domain/access/roles";
import { refusalOf, refuse, type Outcome, type Problem } from "@/lib/domain/refusal";
import { writeAudit, type AuditEntry } from "@/lib/server/audit";
import { now } from "@/lib/server/clock";
import { inWorkshop, inWorkshopDirectly, type Tx } from "@/lib/server/db";
import { logFault } from "@/lib/server/log";
import { isWorthAgain, postgresRefusal } from "@/lib/server/postgres-errors";
import { givenAnswer, keepAnswer, receiptStatements } from "@/lib/server/receipts";
import { AsksForModels, type Sql, type Statements } from "@/lib/server/statements";
import type { Who } from "@/lib/server/who";

/** What a command works with: who, when, and the one transaction everything is written in. */
export type Ctx = CtxOf<Tx>;
export type CtxOf<T extends Statements> = {
  readonly who: Who;
  readonly tx: T;
  readonly now: Temporal.Instant;
  /** Every change leaves its row here; a command that wrote none is a bug and is rolled back. */
  readonly audit: (entry: AuditEntry) => Promise<void>;
};

type Spec<S extends z.ZodType, O, T extends Statements = Tx> = {
  /** Verb and noun, e.g. "book-run"; also the audit's and the receipt's name. */
  readonly name: string;
  readonly needs: Capability;
  readonly input: S;
  /** With a `requestKey` in the input, a repeated request returns the first answer. */
  readonly once?: (input: z.infer<S>) => string | undefined;
  readonly run: (ctx: CtxOf<T>, input: z.infer<S>) => Promise<Outcome<O>>;
  /** Milliseconds that its transaction may take, where what it does grows with its input. */
  readonly timeout?: (input: z.infer<S>) => number;
  /** Turns a constraint that Postgres held up into a refusal for people; undefined = not expected. */
  readonly onConstraint?: (constraint: string, who: Who, input: z.infer<S>) => Promise<Problem | undefined>;
};

export type Command<S extends z.ZodType, O> = {
  /** `requestHash` tells what was asked for; a request key that comes back with another one is refused. */
  (who: Who | null, raw: unknown, requestHash?: string): Promise<Outcome<O>>;
  readonly spec: Omit<Spec<S, O>, "run">;
};

/** A command that asks in statements alone, and says which of them every run of it begins with. */
type DirectSpec<S extends z.ZodType, O> = Spec<S, O, Statements> & {
  readonly ahead: (asked: { readonly who: Who; readonly now: Temporal.Instant }, input: z.infer<S>) => readonly Sql[];
};

/** Runs `work` in a transaction of one kind or the other. */
type Within<S extends z.ZodType, T extends Statements> = <R>(asked: Asked<S>, work: (tx: T) => Promise<R>) => Promise<R>;
type Asked<S extends z.ZodType> = { readonly who: Who; readonly now: Temporal.Instant; readonly input: z.infer<S>; readonly requestHash: string | undefined };

/** Carries a refusal out of the transaction so that it rolls back. */
class RolledBack extends Error {
  constructor(readonly outcome: Outcome<never>) {
    super("refused");
  }
}

export const NOT_SIGNED_IN: Problem = { code: "not-signed-in", message: "Sign in first." };
export const NOT_ALLOWED: Problem = {
  code: "not-allowed",
  message: "Your role in this workshop does not allow this. Ask the manager.",
};

/**
 * Makes one mutation: who is asking → parse → decide and write in one transaction → or a refusal,
 * with nothing written. Transactions that lost a race worth running again are run again, twice.
 */
export function command<S extends z.ZodType, O>(spec: Spec<S, O>): Command<S, O> {
  return commandWithin<S, O, Tx>(spec, ({ who, input }, work) => inWorkshop(who.workshopId, work, spec.timeout?.(input)));
}

/** The same for what many do at once, with fewer ways to the database and back; where it asks for more than statements, as any other. */
export function directCommand<S extends z.ZodType, O>(spec: DirectSpec<S, O>): Command<S, O> {
  return commandWithin<S, O, Statements>(spec, async ({ who, now: at, input }, work) => {
    const requestKey = spec.once?.(input);
    const ahead = [...(requestKey === undefined ? [] : receiptStatements(who, requestKey)), ...spec.ahead({ who, now: at }, input)];
    try {
      return await inWorkshopDirectly(who.workshopId, ahead, work, "once");
    } catch (error) {
      if (error instanceof AsksForModels) return inWorkshop(who.workshopId, work);
      throw error;
    }
  });
}

function commandWithin<S extends z.ZodType, O, T extends Statements>(spec: Spec<S, O, T>, within: Within<S, T>): Command<S, O> {
  const call = async (who: Who | null, raw: unknown, requestHash?: string): Promise<Outcome<O>> => {
    if (who === null) return refuse(NOT_SIGNED_IN);
    if (!can(who.roles, spec.needs)) return refuse(NOT_ALLOWED);
    const parsed = spec.input.safeParse(raw);
    if (!parsed.success) {
      return refusalOf(problemsOf(parsed.error, raw)) ?? refuse({ code: "malformed", message: "The request could not be read." });
    }
    return attempt(spec, within, { who, input: parsed.data, requestHash }, 2);
  };
  return Object.assign(call, { spec });
}

async function attempt<S extends z.ZodType, O, T extends Statements>(spec: Spec<S, O, T>, within: Within<S, T>, given: Omit<Asked<S>, "now">, again: number): Promise<Outcome<O>> {
  try {
    const asked = { ...given, now: now() };
    return await within(asked, (tx) => runOnce(spec, asked, tx));
  } catch (error) {
    if (error instanceof RolledBack) return error.outcome;
    if (again > 0 && isWorthAgain(error)) return attempt(spec, within, given, again - 1);
    return refuse(await problemOf(spec, given.who, given.input, error));
  }
}

async function runOnce<S extends z.ZodType, O, T extends Statements>(spec: Spec<S, O, T>, { who, now: at, input, requestHash }: Asked<S>, tx: T): Promise<Outcome<O>> {
  const requestKey = spec.once?.(input);
  const request = requestKey === undefined ? undefined : { command: spec.name, requestKey, requestHash };
  if (request !== undefined) {
    const given = await givenAnswer<O>(tx, who, request);
    if (given !== undefined) return given;
  }
  let audited = 0;
  const ctx: CtxOf<T> = {
    who,
    tx,
    now: at,
    audit: async (entry) => {
      audited += 1;
      await writeAudit(tx, who, at, spec.name, entry);
    },
  };
  const outcome = await spec.run(ctx, input);
  if (!outcome.ok) throw new RolledBack(outcome);
  if (audited === 0) throw new Error(`${spec.name} changed something without an audit row`);
  if (request !== undefined) await keepAnswer(tx, who, request, at, outcome);
  return outcome;
}

async function problemOf<S extends z.ZodType, O, T extends Statements>(
  spec: Spec<S, O, T>,
  who: Who,
  input: z.infer<S>,
  error: unknown,
): Promise<Problem> {
  const constraint = postgresRefusal(error)?.constraint;
  const expected = constraint === undefined ? undefined : await spec.onConstraint?.(constraint, who, input);
  if (expected !== undefined) return expected;
  const id = logFault(spec.name, error);
  return {
    code: "fault",
    message: `Something went wrong here and nothing was changed. Try again; if it stays, tell the manager the number ${id}.`,
    data: { id },
  };
}
