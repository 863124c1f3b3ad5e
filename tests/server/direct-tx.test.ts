import pg from "pg";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop, inWorkshopDirectly } = await import("@/lib/server/db");
const { AsksForModels, inTurn, modelsOf, sendLater, sql } = await import("@/lib/server/statements");
const { isWorthAgain, postgresRefusal } = await import("@/lib/server/postgres-errors");
const owner = new pg.Client({ connectionString: database.ownerUrl });

let made: MadeWorkshop;
let other: MadeWorkshop;
beforeAll(async () => {
  await owner.connect();
  made = await makeWorkshop(database.ownerUrl);
  other = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const closing = (reason: string, days: readonly [from: string, to: string] = ["2027-02-01", "2027-02-03"]) =>
  sql`INSERT INTO closure (workshop_id, from_date, to_date, reason) VALUES (${made.workshopId}::uuid, ${days[0]}::date, ${days[1]}::date, ${reason})`;
const reasons = sql`SELECT reason FROM closure ORDER BY reason`;
const kept = async () => (await owner.query<{ reason: string }>("SELECT reason FROM closure WHERE workshop_id = $1 ORDER BY reason", [made.workshopId])).rows.map(({ reason }) => reason);
const directly = inWorkshopDirectly;

describe("a transaction of statements alone", () => {
  it("writes what was sent later in its order, sees it when it next asks, and commits it", async () => {
    const seen = await directly(made.workshopId, [], async (tx) => {
      await sendLater(tx, closing("first"));
      await sendLater(tx, closing("second"));
      return inTurn<[{ reason: string }[], { n: number }[]]>(tx, reasons, sql`SELECT count(*)::int AS n FROM closure`);
    });
    expect(seen).toEqual([[{ reason: "first" }, { reason: "second" }], [{ n: 2 }]]);
    expect(await kept()).toEqual(["first", "second"]);
  });

  it("sees its own workshop only, like any other", async () => {
    expect(await directly(other.workshopId, [], (tx) => tx.$queryRaw(reasons))).toEqual([]);
    await expect(directly(other.workshopId, [], (tx) => tx.$executeRaw(closing("not theirs")))).rejects.toMatchObject({ code: "42501" });
  });

  it("leaves nothing when it fails, at the commit too, and its connection goes on", async () => {
    const before = await kept();
    await expect(directly(made.workshopId, [], async (tx) => {
      await sendLater(tx, closing("gone"));
      throw new Error("thought better of it");
    })).rejects.toThrow("thought better of it");
    const late = directly(made.workshopId, [], async (tx) => {
      await sendLater(tx, closing("gone too"));
      await sendLater(tx, closing("backwards", ["2027-02-03", "2027-02-01"]));
      return "said before the commit";
    });
    await expect(late).rejects.toSatisfy((error) => postgresRefusal(error)?.constraint === "closure_forward" && !isWorthAgain(error));
    expect(await kept()).toEqual(before);
    for (let i = 0; i < 12; i += 1) await directly(made.workshopId, [], (tx) => tx.$executeRaw(closing(`again ${i}`)));
    expect((await kept()).length).toBe(before.length + 12);
  });

  it("answers what was asked ahead to the very same question, once", async () => {
    const asked = (least: Date) => sql`SELECT count(*)::int AS n FROM closure WHERE to_date > ${least}`;
    const [early, late] = [new Date("2027-01-01T00:00:00Z"), new Date("2028-01-01T00:00:00Z")];
    const counts = await directly(made.workshopId, [asked(early)], async (tx) => {
      await tx.$executeRaw(closing("meanwhile"));
      const of = async (least: Date) => (await tx.$queryRaw<{ n: number }[]>(asked(least)))[0]?.n ?? -1;
      return [await of(late), await of(new Date(early)), await of(early)];
    });
    expect(counts[0]).toBe(0);
    expect(counts[2]).toBe((counts[1] ?? NaN) + 1);
  });

  it("hands over and reads back what a statement may hold", async () => {
    const at = new Date("2027-03-14T09:30:00.123Z");
    const texts = ['a "quoted" one', "a\\b, {c}", "", "NULL", "ü – 炉"];
    const [row] = await directly(made.workshopId, [], (tx) => tx.$queryRaw<unknown[]>`
      SELECT ${at}::timestamptz AS at, ${texts}::text[] AS texts, ${null}::int AS none, ${true}::boolean AS yes, ${0.1}::float8 AS tenth, ${JSON.stringify({ a: [1] })}::jsonb AS json, timestamptz_send(${at}::timestamptz) AS bytes`);
    expect(row).toMatchObject({ at, texts, none: null, yes: true, tenth: 0.1, json: { a: [1] } });
    expect((row as { bytes: Uint8Array }).bytes.byteLength).toBe(8);
  });

  it("reads the same again and again, with rows and without, whatever stands beside it", async () => {
    const day = sql`SELECT to_date AS day, reason FROM closure WHERE reason = ${"told"} ORDER BY to_date`;
    const [first, again] = await directly(made.workshopId, [], async (tx) => {
      const nobody = await inTurn<[unknown[], unknown[]]>(tx, day, sql`SELECT 1 AS one`);
      await sendLater(tx, closing("told"));
      await sendLater(tx, closing("told"));
      return [nobody, await inTurn<[unknown[], unknown[], unknown[]]>(tx, sql`SELECT 1 AS one`, day, sql`UPDATE closure SET reason = reason WHERE false`)];
    });
    expect(first).toEqual([[], [{ one: 1 }]]);
    const row = { day: new Date(2027, 1, 3), reason: "told" };
    expect(again).toEqual([[{ one: 1 }], [row, row], []]);
  });

  it("waits for its turn with the other kind, one pool for both", async () => {
    const one = (i: number) => (i % 2 === 0 ? inWorkshop(made.workshopId, (tx) => tx.$queryRaw(sql`SELECT pg_sleep(0.01)::text`)) : directly(made.workshopId, [], (tx) => tx.$queryRaw(sql`SELECT pg_sleep(0.01)::text`)));
    await Promise.all(Array.from({ length: 60 }, (_, i) => one(i)));
    const { rows } = await owner.query<{ n: number }>("SELECT count(*)::int AS n FROM pg_stat_activity WHERE usename = 'lehrbook_app' AND datname = current_database()");
    expect(rows[0]?.n).toBeLessThanOrEqual(10);
  });

  it("says where it is asked for more than statements", async () => {
    await expect(directly(made.workshopId, [], async (tx) => modelsOf(tx))).rejects.toBeInstanceOf(AsksForModels);
    expect(await inWorkshop(made.workshopId, async (tx) => modelsOf(tx) === tx)).toBe(true);
  });

  it("ends with its connection, and the next gets another", async () => {
    const cut = directly(made.workshopId, [], async (tx) => {
      const [me] = await tx.$queryRaw<{ pid: number }[]>`SELECT pg_backend_pid() AS pid`;
      await owner.query("SELECT pg_terminate_backend($1)", [me?.pid]);
      return tx.$queryRaw(sql`SELECT pg_sleep(1)::text`);
    });
    await expect(cut).rejects.toThrow();
    expect(await directly(made.workshopId, [], (tx) => tx.$queryRaw(sql`SELECT 1 AS one`))).toEqual([{ one: 1 }]);
  });

  it("shares its connections with another copy of itself, as bundlers make them", async () => {
    const { Batch: One } = await import("@/lib/server/direct/batch");
    vi.resetModules();
    const { Batch: Another } = await import("@/lib/server/direct/batch");
    expect(Another).not.toBe(One);
    const client = new pg.Client({ connectionString: database.appUrl });
    await client.connect();
    const ask = async (Kind: typeof One, text: string, ...values: number[]) => (await client.query(new Kind([{ text, values }])).done)[0];
    const [half, sum] = ["SELECT $1::int / 2 AS n", "SELECT $1::int + $2::int AS n"];
    expect([await ask(One, half, 8), await ask(Another, sum, 3, 4), await ask(One, half, 6), await ask(Another, half, 4), await ask(One, sum, 1, 2)]).toEqual([[{ n: 4 }], [{ n: 7 }], [{ n: 3 }], [{ n: 2 }], [{ n: 3 }]]);
    await client.end();
  });
});
