import { randomUUID } from "node:crypto";
import { afterAll, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { bookedRun, must } = await import("@/tests/helpers/booking");
const { setTariff } = await import("@/lib/server/commands/set-tariff");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { readCastingScreen, readNewCasting } = await import("@/lib/server/queries/casting");
const { workshopPower } = await import("@/lib/server/queries/workshop-power");

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

const everyDay = [1, 2, 3, 4, 5, 6, 7];
const tariff = (night: string, day: string) => ({
  currency: "DKK", standingPerDay: "",
  bands: [{ name: "Night", weekdays: everyDay, from: "00:00", to: "06:00", price: night }, { name: "Day", weekdays: everyDay, from: "06:00", to: "00:00", price: day }],
});

it("a booked firing shows no cost without a tariff, and by its bands with one, in the energy of its stored plan", async () => {
  const shed = await makeWorkshop(database.ownerUrl);
  const { firingId, castingId } = await bookedRun(shed.member, shed.northKiln.equipmentId);
  expect(await firingScreen(shed.member, firingId)).toMatchObject({ cost: null, mayManagePower: false });
  expect(await firingScreen(shed.manager, firingId)).toMatchObject({ cost: null, mayManagePower: true });

  must(await setTariff(shed.manager, tariff("2", "2")));
  const flat = await firingScreen(shed.assistant, firingId);
  expect(flat?.cost?.kWh).toBeCloseTo(flat?.plan.energy.kWh ?? NaN, 6);
  expect(Math.abs((flat?.cost?.cost ?? NaN) - 200 * (flat?.plan.energy.kWh ?? NaN))).toBeLessThanOrEqual(1);

  must(await setTariff(shed.manager, tariff("1", "2")));
  const cheaperNights = await firingScreen(shed.member, firingId);
  expect(cheaperNights?.cost?.bands.map(({ name }) => name)).toEqual(["Night", "Day"]);
  expect(cheaperNights?.cost?.cost).toBeLessThan(flat?.cost?.cost ?? NaN);
  const casting = await readCastingScreen(shed.member, castingId);
  expect(casting?.costs).toMatchObject({ mayManagePower: false, tariff: { currency: "DKK", bands: [{ price: 100 }, { price: 200 }] } });
});

it("a casting's screen and the manager's page know the tariff and the hours in which doors may be closed", async () => {
  const shed = await makeWorkshop(database.ownerUrl);
  const { costs } = await readNewCasting(shed.manager, undefined);
  expect(costs).toMatchObject({ tariff: null, mayManagePower: true });
  expect(costs.startsMin.length).toBeGreaterThan(0);
  expect((await workshopPower(shed.manager, undefined)).tariff).toBeNull();
  must(await setTariff(shed.manager, tariff("1", "2")));
  expect((await workshopPower(shed.manager, undefined)).tariff).toMatchObject({ scale: 0 });
  expect((await readNewCasting({ ...shed.member, memberId: randomUUID() }, undefined)).costs.tariff).not.toBeNull();
});
