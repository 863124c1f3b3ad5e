import { z } from "zod";

/** What Postgres refused: its SQLSTATE and, where there is one, the constraint that said so. */
export type PostgresRefusal = { readonly sqlstate: string; readonly constraint: string | undefined };

const Cause = z.object({
  originalCode: z.string(),
  originalMessage: z.string().default(""),
  constraint: z.object({ index: z.string() }).partial().optional(),
});
const Known = z.object({ meta: z.object({ driverAdapterError: z.object({ cause: Cause }) }) });
const AtCommit = z.object({ cause: Cause });
/** As the driver itself throws it, in a transaction of statements alone. */
const Driver = z.object({ code: z.string().length(5), severity: z.string(), constraint: z.string().optional() });

/** Our own SQLSTATEs, raised by triggers; the constraint name goes with them. */
const OWN_STATES: Readonly<Record<string, string>> = {
  LB001: "check_sheet_is_open",
  LB002: "run_is_whole",
  LB003: "is_immutable",
  LB004: "tariff_is_whole",
};

/**
 * Reads SQLSTATE and constraint out of whatever the client threw; undefined when Postgres did not
 * speak. The adapter hands exclusion constraints over in the message only, so the quoted name is
 * taken from there; the decision itself is made on the SQLSTATE, never on the wording.
 */
export function postgresRefusal(error: unknown): PostgresRefusal | undefined {
  const driver = Driver.safeParse(error);
  if (driver.success) return { sqlstate: driver.data.code, constraint: OWN_STATES[driver.data.code] ?? driver.data.constraint };
  const known = Known.safeParse(error);
  const cause = known.success ? known.data.meta.driverAdapterError.cause : AtCommit.safeParse(error).data?.cause;
  if (cause === undefined) return undefined;
  const quoted = /constraint "([^"]+)"/.exec(cause.originalMessage)?.[1];
  return {
    sqlstate: cause.originalCode,
    constraint: OWN_STATES[cause.originalCode] ?? cause.constraint?.index ?? quoted,
  };
}

/** Serialization failure, deadlock, lock not available: the same transaction may well succeed again. */
const WORTH_AGAIN = new Set(["40001", "40P01", "55P03"]);

export function isWorthAgain(error: unknown): boolean {
  const refusal = postgresRefusal(error);
  return refusal !== undefined && WORTH_AGAIN.has(refusal.sqlstate);
}
