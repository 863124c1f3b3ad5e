import { randomUUID } from "node:crypto";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop } from "@/tests/helpers/scenario";

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

/** Monday to Saturday are staffed alike, so a run may start on the same clock some days later. */
function nextMonday(from: string, timeZone: string): Temporal.ZonedDateTime {
  const at = Temporal.Instant.from(from).toZonedDateTimeISO(timeZone);
  return at.add({ days: 8 - at.dayOfWeek }).withPlainTime("11:00");
}

describe("a kiln that heats for long", () => {
  // Those of five days and less are found another way than the others.
  it.each([1, 4, 5, 7, 14, 21])("keeps its kilowatts for %i days, to the quarter hour", async (days) => {
    const shed = await makeWorkshop(database.ownerUrl, { powerLimitKw: 15 });
    const north = await firstOffer(shed.member, await describedCasting(shed.member, "Gull"), shed.northKiln.equipmentId);
    const monday = nextMonday(later(north.kilnFrom, 7), shed.member.timeZone);
    const { firingId } = must(await bookRun(shed.member, { ...north, kilnFrom: monday.toInstant().toString(), requestKey: randomUUID() }));
    const [kiln] = (await owner.query<{ heated_by: Date }>("UPDATE firing SET heating_hours = $2 WHERE firing_id = $1 RETURNING (SELECT starts_at FROM booking WHERE firing_id = $1 AND purpose = 'kiln') + make_interval(hours => $2::int) AS heated_by", [firingId, 24 * days])).rows;
    await owner.query("UPDATE booking SET ends_at = greatest(ends_at, $2) WHERE firing_id = $1 AND purpose = 'kiln'", [firingId, later(kiln?.heated_by.toISOString() ?? "", 1)]);

    const ends = Temporal.Instant.from(kiln?.heated_by.toISOString() ?? "");
    const south = await firstOffer(shed.otherMember, await describedCasting(shed.otherMember, "Tern"), shed.southKiln.equipmentId);
    const steamFrom = monday.add({ days: days - 1 }).dayOfWeek === 7 ? monday.add({ days: days - 2 }) : monday.add({ days: days - 1 });
    const wish = (kilnFrom: Temporal.Instant) => bookRun(shed.otherMember, { ...south, kilnFrom: kilnFrom.toString(), steamFrom: steamFrom.withPlainTime("09:00").toInstant().toString(), requestKey: randomUUID() });
    expect(codeOf(await wish(ends.subtract({ minutes: 15 })))).toBe("overload");
    expect(codeOf(await wish(ends))).toBe("ok");
  });
});
