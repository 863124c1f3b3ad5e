import { PrismaPg } from "@prisma/adapter-pg";
import pg from "pg";
import { DirectTx } from "@/lib/server/direct/direct-tx";
import { env, forgetEnv } from "@/lib/server/env";
import { PrismaClient, type Prisma } from "@/lib/server/prisma-client/client";

/** A transaction that has named the workshop it works for. */
export type Tx = Prisma.TransactionClient;

// Next reloads modules while developing; the pool is kept across reloads.
const kept = globalThis as typeof globalThis & { lehrbookPool?: pg.Pool; lehrbookPrisma?: PrismaClient };

/** Statements of every booking, marked by hand: their text never varies, and a connection that knows one need not plan it again. */
const PREPARED = "/* prepared */";
const prepared = new Map<string, string>();

function preparedName(sql: string): string {
  // An empty name is that of a statement that is forgotten at once.
  if (!sql.includes(PREPARED)) return "";
  const name = prepared.get(sql) ?? `lehrbook_${prepared.size + 1}`;
  prepared.set(sql, name);
  return name;
}

/** All connections of this process, in one line for both kinds of transaction. */
function pool(): pg.Pool {
  kept.lehrbookPool ??= new pg.Pool({ connectionString: env().appDatabaseUrl, max: env().pool }).on("error", () => undefined);
  return kept.lehrbookPool;
}

function client(): PrismaClient {
  kept.lehrbookPrisma ??= new PrismaClient({
    adapter: new PrismaPg(pool(), { statementNameGenerator: ({ sql }) => preparedName(sql) }),
    log: [],
  });
  return kept.lehrbookPrisma;
}

/** Accounts and sign-in only: without a workshop named, every other table looks empty. */
export function accounts(): Pick<PrismaClient, "person" | "passwordReset" | "signInAttempt" | "accountMail"> {
  return client();
}

const LIMITS = { maxWait: 10_000, timeout: 20_000 };

/**
 * Runs `work` in one transaction that can see and write this workshop's rows and no others.
 * @param timeout milliseconds after which it is rolled back; more only where many runs change together
 */
export async function inWorkshop<T>(workshopId: string, work: (tx: Tx) => Promise<T>, timeout: number = LIMITS.timeout): Promise<T> {
  return client().$transaction(async (tx) => {
    await tx.$executeRaw`/* prepared */ SELECT set_config('lehrbook.workshop', ${workshopId}, true)`;
    return work(tx);
  }, { ...LIMITS, timeout });
}

/** The same in a transaction of statements alone; see DirectTx for `ahead` and `plans`. */
export async function inWorkshopDirectly<T>(workshopId: string, ahead: readonly Prisma.Sql[], work: (tx: DirectTx) => Promise<T>, plans: "once" | "each" = "each"): Promise<T> {
  const connection = await pool().connect();
  let broken = false;
  // The statement that is under way says so too.
  const onError = () => (broken = true);
  connection.on("error", onError);
  try {
    const tx = await DirectTx.begin(connection, workshopId, ahead, plans);
    const result = await work(tx);
    await tx.commit();
    return result;
  } catch (error) {
    if (!broken) await connection.query("ROLLBACK").catch(onError);
    throw error;
  } finally {
    connection.off("error", onError);
    connection.release(broken);
  }
}

/** Sees the memberships of one person, in every workshop, and nothing else. */
export async function asPerson<T>(personId: string, work: (tx: Tx) => Promise<T>): Promise<T> {
  return client().$transaction(async (tx) => {
    await tx.$executeRaw`SELECT set_config('lehrbook.person', ${personId}, true)`;
    return work(tx);
  }, LIMITS);
}

/** Sees the one invitation whose link somebody holds. */
export async function withToken<T>(tokenHash: string, work: (tx: Tx) => Promise<T>): Promise<T> {
  return client().$transaction(async (tx) => {
    await tx.$executeRaw`SELECT set_config('lehrbook.token', ${tokenHash}, true)`;
    return work(tx);
  }, LIMITS);
}

/** Whose token a script holds, and whether it must wait; see `use_token` in 0004_access_token. */
export type TokenUse = {
  readonly workshop_id: string;
  readonly workshop_name: string;
  readonly time_zone: string;
  readonly token_id: string;
  readonly token_name: string;
  readonly scopes: readonly string[];
  readonly member_id: string;
  readonly person_id: string;
  readonly name: string;
  readonly email: string;
  readonly roles: readonly string[];
  readonly wait_seconds: number | null;
};

/** Takes one request off the allowance of the token with this hash; undefined when no live token has it. */
export async function useToken(tokenHash: string, at: Date, burst: number, perSecond: number): Promise<TokenUse | undefined> {
  const { rows } = await pool().query<TokenUse>({ name: "use_token", text: "SELECT * FROM use_token($1, $2::timestamptz, $3::float8, $4::float8)", values: [tokenHash, at.toISOString(), burst, perSecond] });
  return rows[0];
}

/** For tests and command-line tools, which must let the process end, or go on with another database. */
export async function closeDatabase(): Promise<void> {
  await kept.lehrbookPrisma?.$disconnect();
  await kept.lehrbookPool?.end();
  delete kept.lehrbookPrisma;
  delete kept.lehrbookPool;
  forgetEnv();
}
