import { randomUUID } from "node:crypto";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { codeOf, describedCasting, firstOffer, later, must } = await import("@/tests/helpers/booking");

const owner = new pg.Client({ connectionString: database.ownerUrl });
beforeAll(() => owner.connect());
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

type Offer = Awaited<ReturnType<typeof firstOffer>>;

const after = (offer: Offer, days: number): Offer => ({ ...offer, kilnFrom: later(offer.kilnFrom, days) });
const steamOf = async (firingId: string) => (await owner.query<{ equipment_id: string; starts_at: Date; ends_at: Date }>("SELECT equipment_id, starts_at, ends_at FROM booking WHERE firing_id = $1 AND purpose = 'steam-out'", [firingId])).rows[0];

/** Somebody else has the steamer, from and to hours after the start of the offered steam-out; as of another firing. */
async function take(shed: MadeWorkshop, offer: Offer, fromHours: number, toHours: number): Promise<void> {
  const castingId = await describedCasting(shed.otherMember, "Tern");
  const far = await firstOffer(shed.otherMember, castingId, shed.southKiln.equipmentId);
  const { firingId } = must(await bookRun(shed.otherMember, { ...far, kilnFrom: later(far.kilnFrom, 42), steamFrom: undefined, requestKey: randomUUID() }));
  const start = Temporal.Instant.from(offer.steamFrom ?? "");
  const [from, to] = [fromHours, toHours].map((hours) => start.add({ minutes: 60 * hours }).toString());
  await owner.query("UPDATE booking SET starts_at = $2, ends_at = $3 WHERE firing_id = $1 AND purpose = 'steam-out'", [firingId, from, to]);
}

describe("a run with the steam-out that was offered", () => {
  it("is booked with it, although a later one is free by now and would be offered instead", async () => {
    const { member, northKiln } = await makeWorkshop(database.ownerUrl);
    const offer = await firstOffer(member, await describedCasting(member, "Gull"), northKiln.equipmentId);
    const { firingId } = must(await bookRun(member, { ...after(offer, 3), requestKey: randomUUID() }));
    expect((await steamOf(firingId))?.starts_at.toISOString()).toBe(new Date(offer.steamFrom ?? "").toISOString());
  });

  it("is refused as soon as somebody has the steamer at any time of it, and booked when they touch", async () => {
    for (const [from, to, code] of [[-2, 0, "ok"], [-2, 0.25, "steam-out-taken"], [-30, 30, "steam-out-taken"], [-30, 0, "ok"]] as const) {
      const shed = await makeWorkshop(database.ownerUrl);
      const offer = after(await firstOffer(shed.member, await describedCasting(shed.member, "Gull"), shed.northKiln.equipmentId), 3);
      await take(shed, offer, from, to);
      const outcome = await bookRun(shed.member, { ...offer, requestKey: randomUUID() });
      expect(codeOf(outcome), `taken from ${from} h to ${to} h`).toBe(code);
    }
  });
});
