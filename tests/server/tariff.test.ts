import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { setTariff } = await import("@/lib/server/commands/set-tariff");
const { removeTariff } = await import("@/lib/server/commands/remove-tariff");
const { loadTariff } = await import("@/lib/server/rows/tariff");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
});

const ALL = [1, 2, 3, 4, 5, 6, 7];
const night = { name: "Night", weekdays: ALL, from: "00:00", to: "06:00", price: "1.84" };
const day = { name: "Day", weekdays: ALL, from: "06:00", to: "24:00", price: "2,4567" };
const tariff = (over: object = {}) => ({ currency: "DKK", bands: [night, day], standingPerDay: "2.5", ...over });
const kept = (of = made) => inWorkshop(of.workshopId, (tx) => loadTariff(tx));
const record = () => auditRows(database.ownerUrl, made.workshopId);

describe("setting the tariff", () => {
  it("keeps whole numbers, reads them back as typed, and records it in words", async () => {
    expect(await setTariff(made.manager, tariff())).toEqual({ ok: true, value: { bands: 2 } });
    expect(await kept()).toEqual({
      currency: "DKK", scale: 2, standingPerDay: 25000,
      bands: [{ name: "Night", weekdays: ALL, fromMin: 0, toMin: 360, price: 18400 }, { name: "Day", weekdays: ALL, fromMin: 360, toMin: 1440, price: 24567 }],
    });
    const { rows } = await owner.query("SELECT pg_typeof(price)::text AS type, price FROM tariff_span WHERE workshop_id = $1 AND weekday = 1 ORDER BY position", [made.workshopId]);
    expect(rows).toEqual([{ type: "bigint", price: "18400" }, { type: "bigint", price: "24567" }]);
    expect(await record()).toMatchObject([{ action: "set-tariff", subject: "tariff", before: null, after: { currency: "DKK", standingPerDay: "2.5000", bands: ["Night every day 00:00 to 06:00 at 1.8400", "Day every day 06:00 to 24:00 at 2.4567"] } }]);
  });

  it("replaces the one before, and keeps that in the record", async () => {
    await setTariff(made.manager, tariff());
    await setTariff(made.manager, tariff({ currency: "EUR", standingPerDay: "", bands: [{ ...night, to: "00:00", price: "0.31" }] }));
    expect(await kept()).toMatchObject({ currency: "EUR", scale: 0, standingPerDay: null, bands: [{ price: 31, toMin: 1440 }] });
    expect((await record())[1]).toMatchObject({ before: { currency: "DKK" }, after: { currency: "EUR", standingPerDay: "none" } });
  });

  it.each([
    ["a gap", { bands: [night] }, "bands", "gap"],
    ["bands that overlap", { bands: [night, { ...day, from: "05:59" }] }, "bands.1.from", "bands-overlap"],
    ["a negative price", { bands: [{ ...night, price: "-1" }, day] }, "bands.0.price", "out-of-range"],
    ["a price that is none", { bands: [{ ...night, price: "NaN" }, day] }, "bands.0.price", "out-of-range"],
    ["a price as a float", { bands: [{ ...night, price: 1.84 }, day] }, "bands.0.price", "wrong-type"],
    ["an end before the start", { bands: [night, { ...day, from: "18:00", to: "09:00" }] }, "bands.1.to", "ends-before-start"],
    ["a day that is none", { bands: [{ ...night, weekdays: [8] }, day] }, "bands.0.weekdays.0", "not-one-of"],
    ["an unknown currency", { currency: "QQQ" }, "currency", "not-allowed"],
    ["a negative standing charge", { standingPerDay: "-3" }, "standingPerDay", "out-of-range"],
    ["no band", { bands: [] }, "bands", "out-of-range"],
  ])("refuses %s by name and keeps the old one", async (_what, over, field, code) => {
    await setTariff(made.manager, tariff());
    const refused = await setTariff(made.manager, tariff(over));
    expect(refused).toMatchObject({ ok: false, problems: [{ field, code }, ...(refused.ok ? [] : refused.problems.slice(1))] });
    expect(await kept()).toMatchObject({ currency: "DKK", bands: [{ price: 18400 }, { price: 24567 }] });
    expect(await record()).toHaveLength(1);
  });

  it("by two managers at once keeps one of them whole", async () => {
    const outcomes = await Promise.all(["1", "2", "3"].map((price) => setTariff(made.manager, tariff({ bands: [{ ...night, price }, { ...day, price }] }))));
    expect(outcomes.every(({ ok }) => ok)).toBe(true);
    const [a, b] = (await kept())?.bands ?? [];
    expect(a?.price).toBe(b?.price);
    expect(await record()).toHaveLength(3);
  });

  it("is the manager's, and another workshop's tariff is out of sight", async () => {
    await setTariff(made.manager, tariff());
    expect(await setTariff(made.member, tariff())).toMatchObject({ ok: false, problems: [{ code: "not-allowed" }] });
    expect(await kept(await makeWorkshop(database.ownerUrl))).toBeNull();
  });
});

describe("taking the tariff away", () => {
  it("leaves none, with what it was and why in the record; a second time is refused", async () => {
    await setTariff(made.manager, tariff());
    expect(await removeTariff(made.manager, { reason: "Wrong supplier." })).toEqual({ ok: true, value: {} });
    expect(await kept()).toBeNull();
    expect((await record())[1]).toMatchObject({ action: "remove-tariff", reason: "Wrong supplier.", before: { currency: "DKK" } });
    expect(await removeTariff(made.manager, {})).toMatchObject({ ok: false, problems: [{ code: "no-tariff" }] });
  });
});

describe("what Postgres holds, whoever writes", () => {
  const write = async (...statements: string[]) => {
    await owner.query("BEGIN");
    try {
      await owner.query("SELECT set_config('lehrbook.workshop', $1, true)", [made.workshopId]);
      for (const statement of statements) await owner.query(statement.replaceAll("$W", `'${made.workshopId}'`));
      await owner.query("COMMIT");
    } catch (error) {
      await owner.query("ROLLBACK");
      throw error;
    }
  };

  it("no gap at commit, no overlap, no negative price", async () => {
    await setTariff(made.manager, tariff());
    await expect(write("DELETE FROM tariff_span WHERE workshop_id = $W AND weekday = 3 AND position = 0")).rejects.toMatchObject({ code: "LB004" });
    await expect(write("INSERT INTO tariff_span VALUES ($W, 9, 3, 'Twice', 60, 120, 1)")).rejects.toMatchObject({ code: "23P01", constraint: "tariff_span_apart" });
    await expect(write("UPDATE tariff_span SET price = -1 WHERE workshop_id = $W")).rejects.toMatchObject({ code: "23514" });
    await expect(write("DELETE FROM tariff_span WHERE workshop_id = $W", "INSERT INTO tariff_span SELECT $W, 0, d, 'Any', 0, 1440, 5 FROM generate_series(1, 7) d")).resolves.toBeUndefined();
    expect(await kept()).toMatchObject({ bands: [{ name: "Any", price: 5 }] });
  });
});
