import { randomUUID } from "node:crypto";
import { afterAll, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { bookedRun } = await import("@/tests/helpers/booking");
const { castingWhy, firingWhy } = await import("@/lib/server/queries/why");
const { firingScreen } = await import("@/lib/server/queries/firing");
const shed = await makeWorkshop(database.ownerUrl);
const elsewhere = await makeWorkshop(database.ownerUrl);
const { firingId, castingId } = await bookedRun(shed.member, shed.northKiln.equipmentId);

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

it("plans a casting for the kiln that is asked about, and for an ideal one without", async () => {
  const inKiln = await castingWhy(shed.member, { castingId, kilnId: shed.northKiln.equipmentId });
  expect(inKiln).toMatchObject({ kiln: { id: shed.northKiln.equipmentId }, mayChange: true, planned: { ok: true } });
  expect(inKiln?.input.kiln).toBeDefined();
  for (const kilnId of [null, randomUUID()]) {
    const ideal = await castingWhy(shed.member, { castingId, kilnId });
    expect(ideal).toMatchObject({ kiln: null, planned: { ok: true } });
    expect(ideal?.input.kiln).toBeUndefined();
  }
});

it("keeps a casting from everybody but its owner and the manager", async () => {
  const asked = { castingId, kilnId: null };
  expect(await castingWhy(shed.manager, asked)).not.toBeNull();
  expect(await castingWhy({ ...shed.member, memberId: randomUUID() }, asked)).toBeNull();
  expect(await castingWhy(elsewhere.manager, asked)).toBeNull();
  await expect(castingWhy(shed.assistant, asked)).rejects.toThrow("not allowed");
});

it("gives a firing's own stored plan, what it was made from and when it starts, to all of its workshop", async () => {
  const screen = await firingScreen(shed.member, firingId);
  const why = await firingWhy(shed.assistant, { firingId, castingId: null });
  expect(why?.planned).toEqual({ ok: true, value: screen?.plan });
  expect(why).toMatchObject({ castingId, startsAt: screen?.kiln.from, kiln: { id: shed.northKiln.equipmentId }, mayChange: false });
  expect(why?.input.kiln).toBeDefined();
  expect((await firingWhy(shed.member, { firingId, castingId: null }))?.mayChange).toBe(true);
  expect(await firingWhy(elsewhere.manager, { firingId, castingId: null })).toBeNull();
});
