import { createHash } from "node:crypto";
import pg from "pg";

/** A statement and its values, as `sql` makes one. */
export type Statement = { readonly text: string; readonly values: readonly unknown[] };
type Row = Readonly<Record<string, unknown>>;
type Column = { readonly name: string; readonly read: (text: string) => unknown };

/** Which statements a connection has planned, by their text. */
const plannedOn = new WeakMap<pg.Connection, Set<string>>();

const names = new Map<string, string>();

/** What a statement answers with, once it has been told; a plan whose answer would be another is refused by PostgreSQL. */
const told = new Map<string, readonly Column[]>();
const NOTHING: readonly Column[] = [];

/** Follows from the text: a bundler may make several of this module, and their names meet on the connections they share. */
function nameOf(text: string): string {
  const name = names.get(text) ?? `direct_${createHash("sha256").update(text).digest("hex").slice(0, 32)}`;
  names.set(text, name);
  return name;
}

/**
 * Several statements in one piece: one write, one answer, each of them seeing what those before it did and waited for.
 * The first that fails ends it; none after it is carried out. Every statement is planned once on a connection.
 */
export class Batch implements pg.Submittable {
  readonly #parameters: readonly (readonly (string | null)[])[];
  readonly #planning = new Set<string>();
  readonly #rows: Row[][] = [];
  #columns: readonly Column[] | undefined;
  #planned: Set<string> | undefined;
  /** Rows for each statement. */
  readonly done: Promise<readonly (readonly Row[])[]>;
  #succeed: (rows: readonly (readonly Row[])[]) => void = () => undefined;
  #fail: (error: unknown) => void = () => undefined;

  constructor(private readonly statements: readonly Statement[]) {
    this.#parameters = statements.map(({ values }) => values.map(parameter));
    this.done = new Promise((succeed, fail) => ([this.#succeed, this.#fail] = [succeed, fail]));
  }

  /** Called by the client when it is this batch's turn on the connection. */
  submit(connection: pg.Connection): void {
    const planned = plannedOn.get(connection) ?? new Set<string>();
    plannedOn.set(connection, planned);
    this.#planned = planned;
    connection.stream.cork();
    for (const [i, { text }] of this.statements.entries()) this.#send(connection, planned, text, this.#parameters[i] ?? []);
    connection.sync();
    connection.stream.uncork();
  }

  #send(connection: pg.Connection, planned: ReadonlySet<string>, text: string, values: readonly (string | null)[]): void {
    const name = nameOf(text);
    if (!planned.has(text) && !this.#planning.has(text)) {
      this.#planning.add(text);
      // A batch that failed, or another copy of this module, may have left it there; closing none is no error.
      connection.close({ type: "S", name }, true);
      connection.parse({ name, text, types: [] }, true);
    }
    connection.bind({ portal: "", statement: name, values: [...values] } as unknown as pg.BindConfig, true);
    if (!told.has(text)) connection.describe({ type: "P", name: "" }, true);
    connection.execute({ portal: "", rows: "" }, true);
  }

  handleRowDescription({ fields }: { readonly fields: readonly pg.FieldDef[] }): void {
    this.#columns = fields.map(({ name, dataTypeID }) => ({ name, read: pg.types.getTypeParser(dataTypeID, "text") }));
    this.#rows.push([]);
  }

  handleDataRow({ fields }: { readonly fields: readonly (string | null)[] }): void {
    const row: Record<string, unknown> = {};
    for (const [i, { name, read }] of this.#begun().entries()) {
      const text = fields[i] ?? null;
      row[name] = text === null ? null : read(text);
    }
    this.#rows.at(-1)?.push(row);
  }

  handleCommandComplete(): void {
    const columns = this.#begun();
    const text = this.statements[this.#rows.length - 1]?.text;
    if (text !== undefined) told.set(text, columns);
    this.#columns = undefined;
  }

  /** The columns of the statement that is being answered; of one that was not described, those it had before. */
  #begun(): readonly Column[] {
    if (this.#columns === undefined) {
      this.#columns = told.get(this.statements[this.#rows.length]?.text ?? "") ?? NOTHING;
      this.#rows.push([]);
    }
    return this.#columns;
  }

  handleReadyForQuery(): void {
    for (const text of this.#planning) this.#planned?.add(text);
    this.#succeed(this.#rows);
  }

  handleError(error: unknown): void {
    this.#fail(error);
  }
}

/** A value as PostgreSQL reads its text. */
function parameter(value: unknown): string | null {
  if (value === null || value === undefined) return null;
  if (typeof value === "string") return value;
  if (typeof value === "number" || typeof value === "boolean") return String(value);
  if (value instanceof Date) return value.toISOString();
  if (Array.isArray(value)) return `{${value.map(element).join(",")}}`;
  throw new TypeError(`a statement takes no ${typeof value}`);
}

function element(value: unknown): string {
  const text = parameter(value);
  return text === null ? "NULL" : `"${text.replaceAll(/["\\]/g, "\\$&")}"`;
}
