import { randomUUID } from "node:crypto";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { OPERATIONS } from "@/lib/contracts/api/operations";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
process.env["LEHRBOOK_API_PER_MINUTE"] = "100000";
const { closeDatabase } = await import("@/lib/server/db");
const { workshopRecord } = await import("@/lib/server/queries/workshop-record");
const { makeToken } = await import("@/lib/server/commands/make-token");
const { PEBBLE, must } = await import("@/tests/helpers/booking");
const { call } = await import("@/tests/helpers/api/call");
const { documentedBy } = await import("@/tests/helpers/api/as-documented");
const { asDocumented, answered } = documentedBy((await call("/openapi.json")).body);

let shed: MadeWorkshop;
let token: string;

beforeAll(async () => {
  shed = await makeWorkshop(database.ownerUrl);
  token = await tokenOf(shed.member);
});
afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

async function tokenOf(who: MadeWorkshop["member"], scopes = ["read", "plan", "book"]): Promise<string> {
  return must(await makeToken(who, { name: "Script", scopes })).token;
}

const idKey = () => ({ "Idempotency-Key": randomUUID() });
const Times = z.object({ kilns: z.array(z.object({ kilnId: z.string(), runs: z.array(z.object({ kilnFrom: z.string(), steamFrom: z.string().nullable() })) })) });
const Bookings = z.object({ bookings: z.array(z.object({ bookingId: z.string(), firingId: z.string(), purpose: z.string(), from: z.string() })), next: z.string().nullable() });
const Run = z.object({ version: z.number(), status: z.string(), kilnFrom: z.string() });

function wanted(times: unknown, kilnId: string, at: number) {
  const run = Times.parse(times).kilns.find((kiln) => kiln.kilnId === kilnId)?.runs[at];
  if (run === undefined) throw new Error("nothing offered");
  return { kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }) };
}

async function describedCasting(title = "Pebble", by = token): Promise<string> {
  const made = asDocumented("createCasting", await call("/castings", { token: by, json: { title, input: PEBBLE }, headers: idKey() }));
  return z.object({ castingId: z.string() }).parse(made.body).castingId;
}

describe("a script's day", () => {
  it("goes from the list of equipment to a booked, moved and cancelled run, every answer as it is documented", async () => {
    const kilnId = shed.northKiln.equipmentId;
    const equipment = asDocumented("listEquipment", await call("/equipment", { token }));
    expect(equipment.body).toMatchObject({ workshop: shed.member.workshopName, timeZone: "Europe/Copenhagen", equipment: expect.arrayContaining([expect.objectContaining({ equipmentId: kilnId, kind: "kiln", limits: expect.objectContaining({ maxC: 1000 }) })]) });
    expect(asDocumented("planCasting", await call("/plans", { token, json: PEBBLE })).status).toBe(200);
    const castingId = await describedCasting();
    expect(asDocumented("listCastings", await call("/castings", { token })).body).toMatchObject({ castings: [{ castingId, mine: true, next: { step: "book-run" } }] });

    const times = asDocumented("findTime", await call(`/castings/${castingId}/times`, { token }));
    const wish = { json: { castingId, ...wanted(times.body, kilnId, 0) }, headers: idKey() };
    const booked = asDocumented("bookRun", await call("/runs", { token, ...wish }));
    const again = asDocumented("bookRun", await call("/runs", { token, ...wish }));
    expect(booked.status).toBe(201);
    expect({ status: again.status, body: again.body, location: again.headers.get("location") }).toEqual({ status: booked.status, body: booked.body, location: booked.headers.get("location") });
    const address = booked.headers.get("location")?.replace("/api/v1", "") ?? "";

    const run = Run.parse(asDocumented("readRun", await call(address, { token })).body);
    expect(run).toMatchObject({ status: "planned", kilnFrom: wish.json.kilnFrom });
    const moves = asDocumented("findMove", await call(`${address}/times`, { token }));
    const move = { json: { ...wanted(moves.body, kilnId, 1), version: run.version }, headers: idKey() };
    const moved = asDocumented("moveRun", await call(`${address}/move`, { token, ...move }));
    expect(moved.body).toMatchObject({ kilnFrom: move.json.kilnFrom });
    expect(asDocumented("moveRun", await call(`${address}/move`, { token, ...move })).body).toEqual(moved.body);

    const bookings = asDocumented("listBookings", await call("/bookings?mine=true&to=2099-01-01", { token }));
    expect(Bookings.parse(bookings.body).bookings.map(({ purpose }) => purpose).sort()).toEqual(["kiln", "load", "steam-out", "unload"]);
    const loadDay = Bookings.parse(bookings.body).bookings.find(({ purpose }) => purpose === "load")?.from.slice(0, 10) ?? "";
    expect(asDocumented("listLifts", await call(`/lifts?day=${loadDay}`, { token })).body).toMatchObject({ lifts: expect.arrayContaining([expect.objectContaining({ what: "load", casting: "Pebble" })]) });

    const cancel = { json: { reason: "The wax broke." }, headers: idKey() };
    const cancelled = asDocumented("cancelRun", await call(`${address}/cancel`, { token, ...cancel }));
    expect(asDocumented("cancelRun", await call(`${address}/cancel`, { token, ...cancel })).body).toEqual(cancelled.body);
    expect(asDocumented("readRun", await call(address, { token })).body).toMatchObject({ status: "cancelled", endedReason: "The wax broke." });
    expect(Bookings.parse(asDocumented("listBookings", await call("/bookings?to=2099-01-01", { token })).body).bookings).toEqual([]);
  });

  it("has asked for everything there is", () => {
    expect(answered()).toEqual(Object.keys(OPERATIONS).sort());
  });

  it("plans own glass, bare glass and no kiln, every answer as it is documented", async () => {
    const { mould: _mould, feeder: _feeder, ...bare } = PEBBLE;
    const kiln = { insideMm: [600, 600, 600], powerKw: 9, lossWPerK: 5.2, heatCapacityKJPerK: 45, maxC: 950, controllerSegments: 32, minRateKPerH: 1 };
    const own = { name: "Shed glass", expansionSolidPerK: 9.5e-6, densityKgM3: 2700 };
    for (const json of [bare, { ...PEBBLE, kiln }, { ...PEBBLE, glass: own, stress: { permanentMPa: 0.6, passingMPa: 2 } }]) {
      const { status, body } = asDocumented("planCasting", await call("/plans", { token, json }));
      expect({ status, problems: status === 200 ? undefined : body }).toEqual({ status: 200, problems: undefined });
    }
  });

  it("lists bookings in pieces that leave nothing out and show nothing twice", async () => {
    const castingId = await describedCasting("Gull");
    const times = await call(`/castings/${castingId}/times`, { token });
    await call("/runs", { token, json: { castingId, ...wanted(times.body, shed.northKiln.equipmentId, 0) }, headers: idKey() });
    const whole = Bookings.parse((await call("/bookings?to=2099-01-01", { token })).body);
    expect(whole.next).toBeNull();
    const ids: string[] = [];
    for (let next: string | null = ""; next !== null; ) {
      const piece = Bookings.parse(asDocumented("listBookings", await call(`/bookings?to=2099-01-01&limit=1${next === "" ? "" : `&after=${encodeURIComponent(next)}`}`, { token })).body);
      expect(piece.bookings).toHaveLength(1);
      ids.push(...piece.bookings.map(({ bookingId }) => bookingId));
      next = piece.next;
    }
    expect(ids).toEqual(whole.bookings.map(({ bookingId }) => bookingId));
    expect(ids).toHaveLength(4);
  });

  it("stands in the workshop's record with the script that did it", async () => {
    const { lines } = await workshopRecord(shed.manager, { page: 1, text: "Script" });
    const booked = lines.filter(({ action }) => action === "book-run");
    expect(booked.map(({ who }) => who)).toEqual([`${shed.member.name}, by the script Script`, `${shed.member.name}, by the script Script`]);
    expect(lines.find(({ action }) => action === "make-token")).toMatchObject({ who: shed.member.name, called: "Script" });
  });
});
