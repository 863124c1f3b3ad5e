import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { auditRows } from "@/tests/helpers/audit-rows";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { bookedRun, codeOf, describedCasting, firstOffer, must } = await import("@/tests/helpers/booking");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { changeEquipment } = await import("@/lib/server/commands/change-equipment");
const { setInductions } = await import("@/lib/server/commands/set-inductions");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { findTime } = await import("@/lib/server/queries/find-time");
const { clashesScreen } = await import("@/lib/server/queries/clashes");
const { equipmentList } = await import("@/lib/server/queries/equipment-list");
const { listNotices } = await import("@/lib/server/queries/notices");
const { workshopPeople } = await import("@/lib/server/queries/workshop-people");
const owner = new pg.Client({ connectionString: database.ownerUrl });
await owner.connect();

let made: MadeWorkshop;
beforeEach(async () => {
  made = await makeWorkshop(database.ownerUrl);
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

const change = async (more: object) => {
  const { equipmentId, kind, name, limits } = made.northKiln;
  return changeEquipment(made.manager, { equipmentId, kind, name, limits, ...more });
};
const whyNot = async (castingId: string) => (await findTime(made.member, { castingId }))?.offers.kilns.find((kiln) => kiln.kilnId === made.northKiln.equipmentId)?.whyNot;
const day = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);
const north = () => made.northKiln.equipmentId;

describe("the next inspection of a piece", () => {
  it("is kept, recorded, told to scripts, and closes the kiln after its day", async () => {
    const castingId = await describedCasting(made.member);
    const offer = await firstOffer(made.member, castingId, north());
    must(await change({ inspectionDue: day(1) }));
    expect((await auditRows(database.ownerUrl, made.workshopId)).at(-1)).toMatchObject({ action: "change-equipment", before: { inspectionDue: null }, after: { inspectionDue: day(1) } });
    expect((await equipmentList(made.member, undefined)).equipment.find((one) => one.equipmentId === north())?.inspectionDue).toBe(day(1));
    expect(await whyNot(castingId)).toContain("waits for the inspection that is due by");
    const refused = await bookRun(made.member, { ...offer, requestKey: randomUUID() });
    expect(refused).toMatchObject({ ok: false, problems: [{ code: "kiln-taken", message: expect.stringContaining("the inspection that is due by") }] });
    must(await change({ inspectionDue: day(800) }));
    expect(await whyNot(castingId)).toBeNull();
  });

  it("shows as a clash when a run stands beyond it", async () => {
    await bookedRun(made.member, north());
    must(await change({ inspectionDue: day(1) }));
    expect((await clashesScreen(made.manager, undefined)).map((clash) => clash.kind)).toEqual(["outage"]);
  });

  it("is a day or empty, and nothing else", async () => {
    expect(codeOf(await change({ inspectionDue: "soon" }))).not.toBe("ok");
    expect(codeOf(await change({ inspectionDue: null }))).toBe("ok");
  });
});

describe("a kiln that needs an induction", () => {
  it("takes only castings of those who were shown it, whoever books", async () => {
    const castingId = await describedCasting(made.member);
    const offer = await firstOffer(made.member, castingId, north());
    must(await change({ needsInduction: true }));
    expect(await whyNot(castingId)).toBe(`${made.member.name} has had no induction on North kiln; once it was given, a manager records it under People.`);
    for (const who of [made.member, made.manager]) expect(codeOf(await bookRun(who, { ...offer, requestKey: randomUUID() }))).toBe("no-induction");
    expect(codeOf(await createAsk(made.member, { castingId, kilnId: north(), fromDate: day(5), importance: 2, note: "" }))).toBe("kiln-does-not-fit");
    must(await setInductions(made.manager, { memberId: made.member.memberId, kilnIds: [north()] }));
    expect(await whyNot(castingId)).toBeNull();
    expect(codeOf(await bookRun(made.member, { ...offer, requestKey: randomUUID() }))).toBe("ok");
    must(await setInductions(made.manager, { memberId: made.member.memberId, kilnIds: [] }));
    const other = await describedCasting(made.member, "Another");
    expect(await whyNot(other)).toContain("has had no induction");
  });

  it("is listed under People with who was shown it; the record and the person are told", async () => {
    expect((await workshopPeople(made.manager, undefined)).kilns).toEqual([]);
    must(await change({ needsInduction: true }));
    must(await setInductions(made.manager, { memberId: made.member.memberId, kilnIds: [north()] }));
    const screen = await workshopPeople(made.manager, undefined);
    expect(screen.kilns).toEqual([{ kilnId: north(), name: "North kiln" }]);
    expect(screen.people.filter(({ inductions }) => inductions.includes(north())).map(({ memberId }) => memberId)).toEqual([made.member.memberId]);
    expect((await auditRows(database.ownerUrl, made.workshopId)).at(-1)).toMatchObject({ action: "set-inductions", before: { inductions: [] }, after: { inductions: ["North kiln"] } });
    expect(JSON.stringify(await listNotices(made.member, undefined))).toContain("recorded your induction on North kiln");
  });

  it("refuses kilns that need none, strangers and equipment that is no kiln", async () => {
    must(await change({ needsInduction: true }));
    const stranger = await makeWorkshop(database.ownerUrl);
    const ask = (memberId: string, ...kilnIds: string[]) => setInductions(made.manager, { memberId, kilnIds });
    expect(codeOf(await ask(stranger.member.memberId, north()))).toBe("not-found");
    for (const id of [made.southKiln.equipmentId, made.trolley.equipmentId, randomUUID()]) expect(codeOf(await ask(made.member.memberId, id))).toBe("not-found");
    const held = owner.query("UPDATE equipment SET needs_induction = true WHERE workshop_id = $1 AND equipment_id = $2", [made.workshopId, made.trolley.equipmentId]);
    await expect(held).rejects.toMatchObject({ constraint: "equipment_induction_for_kilns" });
  });
});
