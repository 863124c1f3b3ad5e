import type { Tx } from "@/lib/server/db";
import { DirectTx } from "@/lib/server/direct/direct-tx";
import { Prisma } from "@/lib/server/prisma-client/client";

/** What asks in SQL alone takes either kind of transaction. */
export type Statements = {
  $queryRaw<T = unknown>(asked: TemplateStringsArray | Prisma.Sql, ...values: unknown[]): Promise<T>;
  $executeRaw(asked: TemplateStringsArray | Prisma.Sql, ...values: unknown[]): Promise<number>;
};

export type Sql = Prisma.Sql;

/** A statement that is not sent yet. */
export const sql = Prisma.sql;

/** Sends a statement whose answer nobody waits for; should it fail, whatever comes next or the commit fails. */
export async function sendLater(tx: Statements, statement: Sql): Promise<void> {
  if (tx instanceof DirectTx) tx.later(statement);
  else await tx.$executeRaw(statement);
}

/** The rows of each statement, one after another; together where that can be. */
export async function inTurn<T extends readonly (readonly unknown[])[]>(tx: Statements, ...statements: { readonly [K in keyof T]: Sql }): Promise<T> {
  if (tx instanceof DirectTx) return (await tx.inTurn(statements)) as T;
  const rows: (readonly unknown[])[] = [];
  for (const statement of statements) rows.push(await tx.$queryRaw<readonly unknown[]>(statement));
  return rows as unknown as T;
}

/** What was asked ahead is out of date: whatever is asked from now on is asked anew. */
export function askAnew(tx: Statements): void {
  if (tx instanceof DirectTx) tx.askAnew();
}

/** A transaction of statements came upon something that asks for more; whoever began it begins again with another. */
export class AsksForModels extends Error {
  constructor() {
    super("this transaction takes statements only");
  }
}

/** @throws AsksForModels in a transaction that has none */
export function modelsOf(tx: Statements): Tx {
  if (tx instanceof DirectTx) throw new AsksForModels();
  return tx as Tx;
}
