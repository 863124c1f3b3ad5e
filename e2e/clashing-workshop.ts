import { randomUUID } from "node:crypto";
import type { Who } from "@/lib/server/who";
import { PEBBLE, must } from "@/tests/helpers/booking";
import { makeWorkshop } from "@/tests/helpers/scenario";

/*
 * A program: makes a workshop in the tests' database in which two asks collide and a kiln breaks under a run, so that
 * keeping the dates, moving the fewest and leaving the next two weeks alone are three different things; prints who to
 * sign in as. The days fit the clock on which people come (global-setup.ts), 11 March 2027.
 */
const { closeDatabase } = await import("@/lib/server/db");
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { bookRun } = await import("@/lib/server/commands/book-run");
const { createAsk } = await import("@/lib/server/commands/create-ask");
const { createCasting } = await import("@/lib/server/commands/create-casting");
const { findTime } = await import("@/lib/server/queries/find-time");

const { manager, member, otherMember, northKiln, southKiln } = await makeWorkshop(process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "", { name: "Skerry Glass Room" });
const casting = async (who: Who, title: string): Promise<string> => must(await createCasting(who, { title, input: PEBBLE, neededBy: null, requestKey: randomUUID() })).castingId;

async function book(who: Who, title: string, kilnId: string, from: string): Promise<void> {
  const castingId = await casting(who, title);
  const screen = await findTime(who, { castingId, notBefore: from });
  const run = screen?.offers.kilns.find((kiln) => kiln.kilnId === kilnId)?.runs[0];
  if (run === undefined) throw new Error(`nothing is offered for ${title}`);
  must(await bookRun(who, { castingId, kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }), requestKey: randomUUID() }));
}

async function wish(who: Who, title: string, neededBy: string, importance: 1 | 3): Promise<void> {
  must(await createAsk(who, { castingId: await casting(who, title), kilnId: southKiln.equipmentId, fromDate: "2027-03-25", neededBy, importance, note: "" }));
}

await book(member, "Tern", northKiln.equipmentId, "2027-03-22");
await book(otherMember, "Dunlin", northKiln.equipmentId, "2027-03-29");
await book(member, "Ruff", northKiln.equipmentId, "2027-04-02");
await book(member, "Gull", southKiln.equipmentId, "2027-03-25");
await book(otherMember, "Knot", southKiln.equipmentId, "2027-03-30");
await book(otherMember, "Curlew", northKiln.equipmentId, "2027-04-19");
must(await beginOutage(manager, { equipmentId: northKiln.equipmentId, from: "2027-04-20T09:00", to: "2027-04-24T09:00", reason: "a burnt element" }));
await wish(member, "Plover", "2027-03-31", 3);
await wish(otherMember, "Godwit", "2027-06-15", 1);
await closeDatabase();
process.stdout.write(JSON.stringify({ workshopId: manager.workshopId, manager: manager.email, member: member.email, otherMember: otherMember.email }));
