import type pg from "pg";
import { Batch, type Statement } from "@/lib/server/direct/batch";
import { Prisma } from "@/lib/server/prisma-client/client";

type Asked = TemplateStringsArray | Prisma.Sql;
type Rows = readonly unknown[];

/**
 * A transaction of statements alone, for what many do at once: most of what a statement costs is going to the database
 * and back. Statements that are known at the beginning go with it (`ahead`), and those whose answer nobody waits for
 * go with the next (`later`), the last with the commit.
 */
export class DirectTx {
  readonly #ahead: { readonly statement: Statement; readonly rows: Rows }[] = [];
  #later: Statement[] = [];

  private constructor(private readonly client: pg.PoolClient) {}

  /**
   * Begins one for a workshop. What `ahead` asks for is answered to whoever asks for the very same.
   * @param plans "once" where all is found by keys: planning it again for each value, five times on each connection, costs
   *   more than asking; "each" where a value says how much is to be read
   */
  static async begin(client: pg.PoolClient, workshopId: string, ahead: readonly Prisma.Sql[], plans: "once" | "each"): Promise<DirectTx> {
    const tx = new DirectTx(client);
    const mode = plans === "once" ? "force_generic_plan" : "auto";
    const begin = [{ text: "BEGIN", values: [] }, asStatement(Prisma.sql`SELECT set_config('lehrbook.workshop', ${workshopId}, true), set_config('plan_cache_mode', ${mode}, true)`)];
    const statements = ahead.map(asStatement);
    const answers = await tx.#send([...begin, ...statements]);
    for (const [i, statement] of statements.entries()) tx.#ahead.push({ statement, rows: answers[begin.length + i] ?? [] });
    return tx;
  }

  async $queryRaw<T = unknown>(asked: Asked, ...values: unknown[]): Promise<T> {
    const statement = asStatement(isSql(asked) ? asked : Prisma.sql(asked, ...values));
    const known = this.#ahead.findIndex((one) => isSame(one.statement, statement));
    if (known >= 0) return this.#ahead.splice(known, 1)[0]?.rows as T;
    return (await this.#send([statement]))[0] as T;
  }

  async $executeRaw(asked: Asked, ...values: unknown[]): Promise<number> {
    return (await this.$queryRaw<Rows>(asked, ...values)).length;
  }

  /** Together, the second seeing what the first did. */
  async inTurn(asked: readonly Prisma.Sql[]): Promise<readonly Rows[]> {
    return this.#send(asked.map(asStatement));
  }

  /** Goes with whatever is asked next, or with the commit; should it fail, that fails. */
  later(asked: Prisma.Sql): void {
    this.#later.push(asStatement(asked));
  }

  /** Forgets what `ahead` was answered. */
  askAnew(): void {
    this.#ahead.length = 0;
  }

  async commit(): Promise<void> {
    await this.#send([{ text: "COMMIT", values: [] }]);
  }

  async #send(statements: readonly Statement[]): Promise<readonly Rows[]> {
    const first = this.#later;
    this.#later = [];
    const answers = await this.client.query(new Batch([...first, ...statements])).done;
    return answers.slice(first.length);
  }
}

function isSql(asked: Asked): asked is Prisma.Sql {
  return asked instanceof Prisma.Sql;
}

function asStatement({ text, values }: Prisma.Sql): Statement {
  return { text, values };
}

function isSame(a: Statement, b: Statement): boolean {
  return a.text === b.text && a.values.length === b.values.length && a.values.every((value, i) => plain(value) === plain(b.values[i]));
}

function plain(value: unknown): unknown {
  return value instanceof Date ? value.getTime() : Array.isArray(value) ? JSON.stringify(value) : value;
}
