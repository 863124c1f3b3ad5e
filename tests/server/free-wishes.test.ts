import { randomUUID } from "node:crypto";
import { afterAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { releaseRun } = await import("@/lib/server/commands/release-run");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { bookAsk } = await import("@/lib/server/commands/book-ask");
const { firingScreen } = await import("@/lib/server/queries/firing");
const { clashesScreen, freeWishes } = await import("@/lib/server/queries/clashes");
const { bookedRun, describedCasting, must } = await import("@/tests/helpers/booking");

afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

describe("wishes whose weeks are free", () => {
  it("shows a wish there once what stood in its way is gone, until it is answered", async () => {
    const { member, otherMember, manager, northKiln } = await makeWorkshop(database.ownerUrl);
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "First");
    const fromDate = (await firingScreen(member, firingId))?.kiln.from.slice(0, 10) ?? "";
    const castingId = await describedCasting(otherMember, "Second");
    const { askId } = must(await createAsk(otherMember, { castingId, kilnId: northKiln.equipmentId, fromDate, importance: 3, note: "" }));
    expect(await freeWishes(manager, undefined)).toEqual([]);
    expect(await clashesScreen(manager, undefined)).toHaveLength(1);

    must(await releaseRun(manager, { firingId, reason: "The other one has a fixed date." }));
    expect(await clashesScreen(manager, undefined)).toEqual([]);
    expect(await freeWishes(manager, undefined)).toMatchObject([{ askId, title: "Second", kiln: northKiln.name, importance: 3 }]);

    must(await bookAsk(manager, { askId, requestKey: randomUUID() }));
    expect(await freeWishes(manager, undefined)).toEqual([]);
  });

  it("shows nobody's wish to another workshop", async () => {
    const { member, northKiln } = await makeWorkshop(database.ownerUrl);
    const stranger = await makeWorkshop(database.ownerUrl);
    const castingId = await describedCasting(member, "Third");
    must(await createAsk(member, { castingId, kilnId: northKiln.equipmentId, fromDate: "2040-03-05", importance: 1, note: "" }));
    expect(await freeWishes(stranger.manager, undefined)).toEqual([]);
  });
});
