import { Temporal } from "temporal-polyfill";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { answerJoining } = await import("@/lib/server/commands/answer-joining");
const { startFiring } = await import("@/lib/server/commands/start-firing");
const { setTariff } = await import("@/lib/server/commands/set-tariff");
const { firingSharing } = await import("@/lib/server/queries/firing-sharing");
const { sharePreview } = await import("@/lib/server/queries/share-preview");
const { joiningScreen } = await import("@/lib/server/queries/joining");
const { readHome } = await import("@/lib/server/queries/home");
const { kilnWall } = await import("@/lib/server/queries/kiln-wall");
const { listBookings } = await import("@/lib/server/queries/bookings");
const { firingWhy } = await import("@/lib/server/queries/why");
const { checkSheetScreen } = await import("@/lib/server/queries/check-sheet");
const { personEntries } = await import("@/lib/server/feeds/person-entries");
const { bookedRun, codeOf, describedCasting, must, PEBBLE } = await import("@/tests/helpers/booking");
const { BOULDER, LATER, proposed, shared } = await import("@/tests/helpers/sharing");

let owner: pg.Client;
let shed: MadeWorkshop;
const LONG_MS = 60_000;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
  shed = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

describe("room for another casting", () => {
  it("lists one's own castings without a run: what could join, and in one line why another cannot", async () => {
    const made = await makeWorkshop(database.ownerUrl);
    const { firingId } = await bookedRun(made.member, made.northKiln.equipmentId, "Gull", LATER);
    await describedCasting(made.otherMember, "Tern", BOULDER);
    await describedCasting(made.otherMember, "Float", { ...PEBBLE, glass: "soda-lime-float", feeder: { diameterMm: 50, lengthMm: 30 } });
    await describedCasting(made.otherMember, "Slab", { ...PEBBLE, piece: { shape: "brick", sizeMm: [500, 480, 40] } });
    const { room } = await firingSharing(made.otherMember, firingId);
    const why = (title: string) => room?.find((line) => line.title === title)?.whyNot;
    expect(room).toHaveLength(3);
    expect(why("Tern")).toBeNull();
    expect(why("Float")).toMatch(/^Gull \(.*\) soaks at .* and Float \(.*\) at .*: no temperature does for both/);
    expect(why("Slab")).toMatch(/On a shelf of 700 × 700 mm, with 40 mm kept free to the walls and 50 mm between moulds, there is no way to stand them/);
    expect((await firingSharing(made.member, firingId)).room).toEqual([]);
    expect((await firingSharing(made.assistant, firingId)).room).toBeNull();
  }, LONG_MS);
});

describe("the proposal", () => {
  it("is shown before it is made, with shelf, program, end and shares, and after it the same", async () => {
    const { member, otherMember, manager, northKiln } = shed;
    must(await setTariff(manager, { currency: "EUR", standingPerDay: "", bands: [{ name: "Any hour", weekdays: [1, 2, 3, 4, 5, 6, 7], from: "00:00", to: "00:00", price: "0.31" }] }));
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "Gull", LATER);
    const castingId = await describedCasting(otherMember, "Tern", BOULDER);
    const preview = await sharePreview(otherMember, { firingId, castingId });
    expect(preview).toMatchObject({ title: "Gull", together: "Tern with Gull", asks: ["Jonas Brink"], problems: [] });
    const { after, before, rows } = preview?.view ?? {};
    expect(before?.places).toHaveLength(1);
    expect(after?.places.map(({ title }) => title)).toEqual(["Gull", "Tern"]);
    expect(after?.cost.currency).toBe("EUR");
    expect(rows?.reduce((sum, { pays }) => sum + (pays ?? NaN), 0)).toBe(after?.cost.total);
    for (const row of rows ?? []) expect(row.pays).toBeLessThanOrEqual(row.alone);
    expect(await sharePreview(member, { firingId, castingId })).toBeNull();
    expect(await sharePreview((await makeWorkshop(database.ownerUrl)).member, { firingId, castingId })).toBeNull();
  }, LONG_MS);

  it("shows everybody where each stands, waits on the home screen, and ends there", async () => {
    const { member, otherMember, assistant, northKiln } = await makeWorkshop(database.ownerUrl);
    const { joiningId, firingId } = await proposed(member, otherMember, northKiln.equipmentId);
    expect(await joiningScreen(member, joiningId)).toMatchObject({
      status: "open", over: null, waitsForYou: true, yours: false,
      people: [{ name: "Selma Krog", says: "proposes", you: false }, { name: "Jonas Brink", says: "asked", you: true }],
    });
    expect(await joiningScreen(otherMember, joiningId)).toMatchObject({ waitsForYou: false, yours: true });
    expect(await joiningScreen(assistant, joiningId)).toMatchObject({ waitsForYou: false, yours: false });
    expect((await readHome(member, undefined)).joinings).toMatchObject([{ joiningId, by: "Selma Krog", castingTitle: "Tern", firingTitle: "Gull" }]);
    expect((await readHome(otherMember, undefined)).joinings).toEqual([]);
    expect((await firingSharing(member, firingId)).joining).toMatchObject({ joiningId, waitsForYou: true });
    must(await answerJoining(member, { joiningId, accepts: true }));
    expect(await joiningScreen(otherMember, joiningId)).toMatchObject({ status: "agreed", over: "Everybody accepted.", waitsForYou: false, view: { before: null } });
    expect((await readHome(member, undefined)).joinings).toEqual([]);
    expect(await joiningScreen((await makeWorkshop(database.ownerUrl)).manager, joiningId)).toBeNull();
  }, LONG_MS);
});

describe("a shared firing", () => {
  it("is both members' on wall, list, sheet, why and feed, each steam-out its own casting's", async () => {
    const made = await makeWorkshop(database.ownerUrl);
    const { member, otherMember, assistant, northKiln } = made;
    const { firingId, guestCasting, hostCasting } = await shared(member, otherMember, northKiln.equipmentId);
    for (const who of [member, otherMember]) {
      expect((await kilnWall(who, null)).bars).toMatchObject([{ title: "Gull with Tern", mine: true }]);
      expect(await checkSheetScreen(who, firingId)).toMatchObject({ title: "Gull with Tern", mine: true });
      const { bookings } = must(await listBookings(who, { mine: "true", limit: 50 }));
      expect(bookings.map(({ purpose }) => purpose).sort()).toEqual(["kiln", "load", "steam-out", "steam-out", "unload"]);
      expect(bookings.filter(({ purpose }) => purpose === "steam-out").map(({ title }) => title).sort()).toEqual(["Gull", "Tern"]);
      const entries = await inWorkshop(made.workshopId, (tx) => personEntries(tx, who, Temporal.Now.instant()));
      const own = who === member ? "Gull" : "Tern";
      const titles = entries.map(({ title }) => title);
      expect(titles.filter((title) => title.includes("Gull with Tern"))).toHaveLength(1);
      expect(titles.filter((title) => title.endsWith(`: ${own}`)).length).toBe(titles.length - 1);
    }
    expect((await kilnWall(assistant, null)).bars).toMatchObject([{ mine: false }]);
    expect(await firingWhy(member, { firingId, castingId: guestCasting })).toMatchObject({ title: "Tern", owner: "Selma Krog", castings: [{}, {}] });
    expect(await firingWhy(member, { firingId, castingId: null })).toMatchObject({ title: "Gull", castingId: hostCasting });
    const third = await describedCasting(otherMember, "Heron", BOULDER);
    expect(await sharePreview(otherMember, { firingId, castingId: third })).toMatchObject({ title: "Gull with Tern", together: "Heron with Gull and Tern" });
    const { view } = await firingSharing(otherMember, firingId);
    expect(view?.rows.map(({ title, mine }) => [title, mine])).toEqual([["Gull", false], ["Tern", true]]);
  }, LONG_MS);

  it("is started by anybody in it once its sheet allows, and not before", async () => {
    const { member, otherMember, northKiln } = await makeWorkshop(database.ownerUrl);
    const { firingId } = await shared(member, otherMember, northKiln.equipmentId, PEBBLE);
    expect(codeOf(await startFiring(otherMember, { firingId }))).not.toBe("not-allowed");
    const stranger = (await makeWorkshop(database.ownerUrl)).member;
    expect(codeOf(await startFiring(stranger, { firingId }))).toBe("not-found");
  }, LONG_MS);
});
