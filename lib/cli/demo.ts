import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { DEMO_CASTINGS } from "@/prisma/demo/castings";
import { DEMO_PAST } from "@/prisma/demo/past";
import { DEMO_TARIFF, DEMO_WORKSHOP } from "@/prisma/demo/workshop";
import { DEMO_PASSWORD, DEMO_SIGN_INS } from "@/lib/contracts/demo-sign-ins";
import { now } from "@/lib/server/clock";
import { addClosure } from "@/lib/server/commands/add-closure";
import { beginOutage } from "@/lib/server/commands/begin-outage";
import { setExpectedEnd } from "@/lib/server/commands/set-expected-end";
import { setTariff } from "@/lib/server/commands/set-tariff";
import { closeDatabase, inWorkshop } from "@/lib/server/db";
import { must, tellStory } from "./demo/tell-story";
import { anybodyHere, isDemo, writeWorkshop, type DemoPlace } from "./demo/write-workshop";

/**
 * Sets up the demo workshop in an empty database and prints the three sign-ins; in its own database it
 * only prints them again. DATABASE_URL is the owner's. A database with other people in it is left alone.
 */
async function demo(): Promise<void> {
  const client = new pg.Client({ connectionString: process.env["DATABASE_URL"] });
  await client.connect();
  try {
    if (await anybodyHere(client)) {
      if (await isDemo(client)) printSignIns();
      return;
    }
    await fill(await writeWorkshop(client));
    printSignIns();
  } finally {
    await client.end();
    await closeDatabase();
  }
}

async function fill(place: DemoPlace): Promise<void> {
  const today = now().toZonedDateTimeISO(DEMO_WORKSHOP.timeZone).toPlainDate();
  const manager = place.people.get("ingrid");
  if (manager === undefined) throw new Error("the demo has no manager");
  must(await setTariff(manager, DEMO_TARIFF));
  const newYear = turnOfTheYear(today);
  must(await addClosure(manager, { from: newYear.from.toString(), to: newYear.to.toString(), reason: "Closed over the turn of the year" }));
  const firings = new Map<string, string>();
  for (const casting of [...DEMO_PAST, ...DEMO_CASTINGS]) {
    const { firingId } = await tellStory(place, casting, today);
    if (firingId !== null) firings.set(casting.title, firingId);
  }
  await expectLate(place, firings.get("Long shore block") ?? "");
  const outOfService = today.add({ days: 14 });
  must(await beginOutage(manager, {
    equipmentId: place.equipment.get("Plover") ?? "",
    from: `${outOfService.toString()}T09:00`,
    to: `${outOfService.add({ days: 3 }).toString()}T17:00`,
    reason: "New elements; the electrician comes",
  }));
}

/** The long firing runs late, so that its clash can be seen. */
async function expectLate(place: DemoPlace, firingId: string): Promise<void> {
  const owner = place.people.get("odile");
  if (owner === undefined) throw new Error("the demo has no odile");
  const unload = await inWorkshop(owner.workshopId, (tx) => tx.booking.findFirstOrThrow({ where: { firingId, purpose: "unload", standing: true } }));
  const late = Temporal.Instant.fromEpochMilliseconds(unload.startsAt.getTime()).add({ hours: 40 });
  must(await setExpectedEnd(owner, { firingId, at: late.toString(), reason: "The core lags; a probe in the mould reads 9 K more." }));
}

function turnOfTheYear(today: Temporal.PlainDate): { from: Temporal.PlainDate; to: Temporal.PlainDate } {
  const from = Temporal.PlainDate.from({ year: today.year, month: 12, day: 24 });
  const coming = Temporal.PlainDate.compare(from, today) > 0 ? from : from.add({ years: 1 });
  return { from: coming, to: coming.add({ days: 9 }) };
}

function printSignIns(): void {
  const lines = DEMO_SIGN_INS.map(({ role, email }) => `  ${role.padEnd(9)} ${email}`);
  process.stdout.write(`Demo workshop ${DEMO_WORKSHOP.name}; password for all: ${DEMO_PASSWORD}\n${lines.join("\n")}\n`);
}

await demo();
