import { afterAll, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, SCENARIO_PASSWORD } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase, inWorkshop } = await import("@/lib/server/db");
const { loadEquipment } = await import("@/lib/server/rows/equipment");
const { loadHours } = await import("@/lib/server/rows/workshop-hours");
const { membershipsOf } = await import("@/lib/server/session");
const { signIn } = await import("@/lib/server/sign-in");

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

it("makes a workshop that the application reads as it was described", async () => {
  const made = await makeWorkshop(database.ownerUrl);
  const { equipment, hours } = await inWorkshop(made.workshopId, async (tx) => ({
    equipment: await loadEquipment(tx),
    hours: await loadHours(tx, made.manager),
  }));
  expect(equipment).toEqual([made.northKiln, made.southKiln, made.steamer, made.trolley]);
  expect(hours.weekly).toHaveLength(6);
  expect(hours.weekly.every((day) => day.opensMin === 9 * 60 && day.closesMin === 18 * 60 && day.hands === 3)).toBe(true);
});

it("returns people as the session would and lets them sign in", async () => {
  const made = await makeWorkshop(database.ownerUrl, { name: "Ebb Street Casters", timeZone: "America/Halifax" });
  expect(await membershipsOf(made.assistant.personId)).toEqual([made.assistant]);
  expect(await signIn(made.manager.email, SCENARIO_PASSWORD, "unknown")).toMatchObject({ personId: made.manager.personId });
});
