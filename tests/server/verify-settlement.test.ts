import pg from "pg";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { log } from "@/lib/server/log";
import { useFreshDatabase } from "@/tests/helpers/database";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptSettlement } = await import("@/lib/server/commands/accept-settlement");
const { accepting, askedWays, brokenKiln, SETTLED_REASON } = await import("@/tests/helpers/broken-kiln");
const { objectionsAfter, settledWorkshop } = await import("@/tests/helpers/settled-rows");
const { must } = await import("@/tests/helpers/booking");
type Settled = Awaited<ReturnType<typeof settledWorkshop>>;
let owner: pg.Client;
let made: Settled;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  made = await settledWorkshop(database.ownerUrl);
}, 60_000);
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const booking = (firingId: string, purpose: string): string => `standing AND firing_id = '${firingId}' AND purpose = '${purpose}'`;
const lift = (firingId: string, what: string): string => `standing AND firing_id = '${firingId}' AND what = '${what}'`;
const limit = (equipmentId: string, name: string, value: string): string => `UPDATE equipment SET limits = jsonb_set(limits, '{${name}}', '${value}') WHERE equipment_id = '${equipmentId}'`;
const first = (column: string, where: string, of = "booking"): string => `(SELECT ${column} FROM ${of} WHERE ${where} ORDER BY starts_at LIMIT 1)`;

type Plant = (made: Settled) => string | readonly string[];
const PLANTS: readonly (readonly [what: string, fact: string, said: RegExp, plant: Plant])[] = [
  ["two runs in a kiln at once", "kiln", /^Seal has South kiln from .*, and so has Wave\.$/, ({ seal, stays }) => `UPDATE booking SET starts_at = ${first("starts_at", booking(seal, "kiln"))} + interval '1 hour', ends_at = ${first("ends_at", booking(seal, "kiln"))} WHERE ${booking(stays, "kiln")}`],
  ["a kiln that is not empty while it is loaded", "kiln", /^Seal has South kiln from .*, and so has Wave\.$/, ({ seal, stays }) => `UPDATE booking SET starts_at = ${first("starts_at", booking(seal, "kiln"))} - interval '2 days', ends_at = ${first("starts_at", booking(seal, "load"))} + interval '1 minute' WHERE ${booking(stays, "kiln")}`],
  ["a kiln whose run before is expected to be late", "kiln", /^Seal has South kiln from .*, and so has Wave\.$/, ({ seal, stays }) => `UPDATE firing SET expected_end = ${first("starts_at", booking(seal, "kiln"))} WHERE firing_id = '${stays}'`],
  ["an unload before the firing is over", "kiln", /^Seal is unloaded at .*, before its firing is over\.$/, ({ seal }) => `UPDATE lift SET starts_at = starts_at - interval '3 days', ends_at = ends_at - interval '3 days' WHERE ${lift(seal, "unload")}`],
  ["a door that does not close behind the loading", "kiln", /^Seal is loaded until .* and its door closes at/, ({ seal }) => `UPDATE lift SET ends_at = ends_at - interval '1 minute' WHERE ${lift(seal, "load")}`],
  ["another kiln than was said", "as-said", /^Seal stands on North kiln from .*, and the settlement says South kiln from/, ({ seal, northKiln }) => `UPDATE booking SET equipment_id = '${northKiln.equipmentId}' WHERE ${booking(seal, "kiln")}`],
  ["another hour than was said", "as-said", /^Seal stands on South kiln from/, ({ seal }) => `UPDATE booking SET ends_at = ends_at + interval '1 minute' WHERE ${booking(seal, "kiln")}`],
  ["a load that is too wide", "fits", /^Seal is too wide for South kiln\.$/, ({ southKiln }) => limit(southKiln.equipmentId, "insideMm", "[100, 900, 900]")],
  ["a load that is too tall", "fits", /^Seal is too tall for South kiln\.$/, ({ southKiln }) => limit(southKiln.equipmentId, "headroomMm", "400")],
  ["a load that is too heavy", "fits", /^Gull and Tern is too heavy for the shelf of North kiln\.$/, ({ northKiln }) => limit(northKiln.equipmentId, "shelfLoadKg", "1")],
  ["a firing that is too hot", "fits", /^Seal needs more heat than South kiln gives\.$/, ({ southKiln }) => limit(southKiln.equipmentId, "maxC", "500")],
  ["a kiln that its owner was not shown", "fits", /^Seal is of somebody who was not shown South kiln\.$/, ({ southKiln }) => `UPDATE equipment SET needs_induction = true WHERE equipment_id = '${southKiln.equipmentId}'`],
  ["a loading when nobody is there", "staffed", /^Seal is moved \(load\) at .*, when nobody is there\.$/, ({ seal }) => `UPDATE lift SET starts_at = date_trunc('day', starts_at) + interval '2 hours', ends_at = date_trunc('day', starts_at) + interval '3 hours' WHERE ${lift(seal, "load")}`],
  ["an unloading on a closed day", "staffed", /^Seal is moved \(unload\) at .*, when nobody is there\.$/, ({ seal, workshopId }) => `INSERT INTO closure (workshop_id, from_date, to_date, reason) SELECT '${workshopId}', starts_at::date, starts_at::date, 'holiday' FROM lift WHERE ${lift(seal, "unload")}`],
  ["an unloading that outlasts the day", "staffed", /^Seal is moved \(unload\) at .*, when nobody is there\.$/, ({ seal, workshopId, manager }) => `UPDATE staffed_hours SET closes_min = (SELECT extract(epoch FROM (ends_at AT TIME ZONE '${manager.timeZone}')::time) / 60 - 1 FROM lift WHERE ${lift(seal, "unload")}) WHERE workshop_id = '${workshopId}'`],
  ["lifts that take more hands than there are", "hands", /^Seal is moved \(load\) at .*, when lifts take 4 and 3 are on duty\.$/, ({ seal }) => `UPDATE lift SET hands = 4 WHERE ${lift(seal, "load")}`],
  ["lifts that take the hands of others", "hands", /^Seal is moved \(load\) at .*, when lifts take \d and 3 are on duty\.$/, ({ seal, stays }) => `UPDATE lift SET hands = 3, starts_at = ${first("starts_at", lift(seal, "load"), "lift")} + interval '1 minute', ends_at = ${first("ends_at", lift(seal, "load"), "lift")} WHERE ${lift(stays, "load")}`],
  ["a lift that is not planned", "whole", /^Seal has no lift of the kind "unload"\.$/, ({ seal }) => `UPDATE lift SET standing = false WHERE ${lift(seal, "unload")}`],
  ["a trolley that is not rated for it", "trolley", /^Seal is too heavy for Blue trolley \(load\)\.$/, ({ trolley }) => limit(trolley.equipmentId, "ratedKg", "46")],
  ["a trolley that is not booked", "trolley", /^Seal is moved \(load\) on Blue trolley, which is not booked for it then\.$/, ({ seal }) => `UPDATE booking SET ends_at = ends_at - interval '1 minute' WHERE ${booking(seal, "load")}`],
  ["a trolley that somebody else has", "trolley", /^Seal has Blue trolley from .*, and so has Wave\.$/, ({ seal, stays }) => `UPDATE booking SET starts_at = ${first("starts_at", booking(seal, "unload"))}, ends_at = ${first("ends_at", booking(seal, "unload"))} WHERE ${booking(stays, "unload")}`],
  ["a steam-out that leaves no time to drain", "steamer", /^Seal is loaded at .*, before its mould is dry\.$/, ({ seal }) => `UPDATE booking SET ends_at = ${first("starts_at", lift(seal, "load"), "lift")} - interval '119 minutes' WHERE ${booking(seal, "steam-out")}`],
  ["a steam-out too long before", "steamer", /^Seal is steamed out at .*, more than 21 days before its loading\.$/, ({ seal }) => [`UPDATE settlement SET accepted_at = accepted_at - interval '60 days'`, `UPDATE booking SET starts_at = ${first("starts_at", lift(seal, "load"), "lift")} - interval '21 days 1 minute' WHERE ${booking(seal, "steam-out")}`]],
  ["a steam-out that is too short", "steamer", /^Seal is not steamed out for as long as its mould needs\.$/, ({ seal }) => `UPDATE booking SET ends_at = starts_at + interval '20 minutes' WHERE ${booking(seal, "steam-out")}`],
  ["a mould that its steamer does not take", "steamer", /^Seal has a mould that Steamer does not take\.$/, ({ steamer }) => limit(steamer.equipmentId, "maxMouldKg", "1")],
  ["a casting that is not steamed out", "steamer", /^Seal is not steamed out\.$/, ({ seal }) => `UPDATE booking SET standing = false WHERE ${booking(seal, "steam-out")}`],
  ["kilns that heat above the limit", "power", /^Seal heats at .*, when kilns draw .* kW together and 7.9 kW is the limit\.$/, ({ workshopId }) => `UPDATE workshop SET power_limit_kw = 7.9 WHERE workshop_id = '${workshopId}'`],
  ["a kiln that is out of service", "outage", /^Seal has South kiln from .*, when it is out of service \(a burnt element\)\.$/, ({ workshopId, seal }) => `INSERT INTO outage (workshop_id, equipment_id, starts_at, reason) SELECT '${workshopId}', equipment_id, ends_at - interval '1 minute', 'a burnt element' FROM booking WHERE ${booking(seal, "kiln")}`],
  ["a steamer that is due for inspection", "outage", /^Seal has Steamer until .*, after its inspection falls due\.$/, ({ seal, steamer }) => `UPDATE equipment SET inspection_due = (SELECT ends_at::date - 1 FROM booking WHERE ${booking(seal, "steam-out")}) WHERE equipment_id = '${steamer.equipmentId}'`],
  ["a kiln that is not in use any more", "outage", /^Seal has South kiln from .*, which is not in use any more\.$/, ({ southKiln }) => `UPDATE equipment SET retired_at = now() WHERE equipment_id = '${southKiln.equipmentId}'`],
  ["a shared firing that came apart", "together", /is planned for 2 castings and one casting stands in it, or others\.$/, ({ gull }) => `UPDATE firing_casting SET standing = false WHERE firing_id = '${gull}' AND casting_id = (SELECT max(casting_id::text)::uuid FROM firing_casting WHERE firing_id = '${gull}')`],
  ["a run without its unloading", "whole", /^Seal needs .* and holds kiln, load, steam-out\.$/, ({ seal }) => `UPDATE booking SET standing = false WHERE ${booking(seal, "unload")}`],
  ["a run that has started", "started", /^Seal is started and not planned, so it must not move\.$/, ({ seal }) => `UPDATE firing SET status = 'started', started_at = now() WHERE firing_id = '${seal}'`],
  ["a firing that started and was moved beside", "started", /^Wave has started and must not move, and its places were changed\.$/, ({ seal, stays }) => [`UPDATE firing SET status = 'started', started_at = now() WHERE firing_id = '${stays}'`, `UPDATE booking SET starts_at = starts_at + interval '1 hour', changed_in = (SELECT changed_in FROM firing WHERE firing_id = '${seal}') WHERE ${booking(stays, "kiln")}`]],
  ["somebody else's lift that was moved beside", "started", /^Wave is no part of this settlement, and its places were changed\.$/, ({ seal, stays }) => `UPDATE lift SET changed_in = (SELECT changed_in FROM firing WHERE firing_id = '${seal}') WHERE ${lift(stays, "load")}`],
];

describe("the check of an accepted settlement", () => {
  it("finds nothing in what was accepted", async () => {
    expect(await objectionsAfter(owner, made, ["SELECT 1"])).toEqual([]);
  });

  it.each(PLANTS)("names %s", async (_what, fact, said, plant) => {
    const planted = plant(made);
    const objections = await objectionsAfter(owner, made, typeof planted === "string" ? [planted] : planted);
    expect(objections.find((one) => one.fact === fact && said.test(one.sentence))?.sentence, objections.map(({ sentence }) => sentence).join("\n")).toMatch(said);
  });

  it.each<readonly [string, Plant]>([
    ["as many hands as are on duty", ({ seal }) => `UPDATE lift SET hands = 3 WHERE ${lift(seal, "load")}`],
    ["a limit that is just reached", ({ workshopId }) => `UPDATE workshop SET power_limit_kw = 20 WHERE workshop_id = '${workshopId}'`],
    ["an outage that begins when the kiln is free", ({ workshopId, seal }) => `INSERT INTO outage (workshop_id, equipment_id, starts_at, reason) SELECT '${workshopId}', equipment_id, ends_at, 'a burnt element' FROM booking WHERE ${booking(seal, "kiln")}`],
    ["a run that ends when the loading begins", ({ seal, stays }) => `UPDATE booking SET starts_at = ${first("starts_at", booking(seal, "kiln"))} - interval '2 days', ends_at = ${first("starts_at", booking(seal, "load"))} WHERE ${booking(stays, "kiln")}`],
    ["a mould that drains just long enough", ({ seal }) => `UPDATE booking SET ends_at = ${first("starts_at", lift(seal, "load"), "lift")} - interval '2 hours' WHERE ${booking(seal, "steam-out")}`],
  ])("lets stand %s", async (_what, plant) => {
    const planted = plant(made);
    expect((await objectionsAfter(owner, made, typeof planted === "string" ? [planted] : planted)).map(({ sentence }) => sentence)).toEqual([]);
  });
});

describe("a settlement that does not stand its check", () => {
  it("is taken back whole; the manager reads what is broken and for which run, and it is logged", async () => {
    const { manager, workshopId } = await brokenKiln(database.ownerUrl);
    const found = await askedWays(manager);
    const order = accepting(found, found.ways.find(({ figures }) => figures.moved > 0));
    const state = async () => [
      (await owner.query("SELECT firing_id, equipment_id, purpose, starts_at, ends_at FROM booking WHERE workshop_id = $1 AND standing ORDER BY 1, 3", [workshopId])).rows,
      (await owner.query("SELECT text FROM notice WHERE workshop_id = $1 AND text LIKE $2", [workshopId, `%${SETTLED_REASON}`])).rows,
      (await owner.query("SELECT FROM settlement WHERE workshop_id = $1", [workshopId])).rows,
    ];
    const before = await state();
    const logged = vi.spyOn(log, "error").mockImplementation(() => undefined);
    // Whatever is written last: the loading of every moved run is put into the night.
    await owner.query(`CREATE FUNCTION spoils() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
      UPDATE lift SET starts_at = date_trunc('day', starts_at) + interval '2 hours' WHERE workshop_id = NEW.workshop_id AND standing AND what = 'load' AND firing_id = (NEW.moves->0->>'firingId')::uuid; RETURN NULL; END $$`);
    await owner.query("CREATE TRIGGER spoils AFTER INSERT ON settlement FOR EACH ROW EXECUTE FUNCTION spoils()");
    const outcome = await acceptSettlement(manager, order);
    await owner.query("DROP TRIGGER spoils ON settlement");
    const [entry] = logged.mock.calls;
    logged.mockRestore();
    expect(outcome.ok ? "" : outcome.problems[0].message).toMatch(/^Nothing was moved, because the check of what was written found a fault \(number [0-9a-f]{8}\): (First|Second) is moved \(load\) at .*, when nobody is there\.$/);
    expect(outcome).toMatchObject({ problems: [{ code: "does-not-hold", data: { fact: "staffed" } }] });
    expect(entry).toMatchObject([{ where: "verify-settlement", objections: expect.arrayContaining([expect.objectContaining({ fact: "staffed" })]) }, "settlement taken back"]);
    expect(await state()).toEqual(before);
    must(await acceptSettlement(manager, order));
  }, 60_000);
});
