import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type pg from "pg";
import type { Who } from "@/lib/server/who";
import { seeded } from "../seeded";
import { pebble, writeWorld, type World } from "./write-world";

const EQUIPMENT = { kilns: 6, steamers: 2, trolleys: 2, members: 12 };
const SIZES_MM = [60, 80, 100, 120, 140, 160];
const TIME_ZONE = "Europe/Copenhagen";
/** Of all castings, so many are booked first come, first served, before a kiln breaks; the others are asked for. */
const BOOKED = 0.5;

export type AskedSeason = { readonly world: World; readonly manager: Who; readonly runs: number };

/** A workshop with more asked for than it has kilns in the weeks they ask for, half of it booked, and a kiln that breaks then; half of its kilns may heat together, or all. The same for the same seed and day. */
export async function askedSeason(owner: pg.Client, castings: number, seed: number, isLimited: boolean): Promise<AskedSeason> {
  const { bookRun } = await import("@/lib/server/commands/book-run");
  const { beginOutage } = await import("@/lib/server/commands/begin-outage");
  const { createAsk } = await import("@/lib/server/commands/create-ask");
  const { findTime } = await import("@/lib/server/queries/find-time");
  const random = seeded(1 + 31 * seed);
  random();
  const below = (count: number): number => Math.floor(random() * count);
  const world = await writeWorld(owner, EQUIPMENT);
  if (!isLimited) await owner.query("UPDATE workshop SET power_limit_kw = NULL WHERE workshop_id = $1", [world.workshopId]);
  const manager = world.members[0] as Who;
  const today = Temporal.Now.zonedDateTimeISO(TIME_ZONE).toPlainDate();
  for (let i = 0; i < castings; i++) {
    const member = world.members[i % world.members.length] as Who;
    const castingId = randomUUID();
    await owner.query("INSERT INTO casting (workshop_id, casting_id, member_id, title, input) VALUES ($1, $2, $3, $4, $5)", [world.workshopId, castingId, member.memberId, `Casting ${i}`, JSON.stringify(pebble(SIZES_MM[below(SIZES_MM.length)]))]);
    const first = today.add({ days: 2 + below(35) });
    const neededBy = first.add({ days: 14 + below(35) }).toString();
    const importance = 1 + below(3);
    if (random() < BOOKED) {
      await owner.query("UPDATE casting SET needed_by = $2 WHERE casting_id = $1", [castingId, neededBy]);
      const found = await findTime(member, { castingId, notBefore: first.toString() });
      const runs = (found?.offers.kilns ?? []).flatMap(({ kilnId, runs: [run] }) => (run === undefined ? [] : [{ ...run, kilnId }]));
      const run = runs.toSorted((a, b) => a.kilnFrom.localeCompare(b.kilnFrom))[0];
      if (run === undefined) throw new Error(`nothing is offered for casting ${i}`);
      const booked = await bookRun(member, { castingId, kilnId: run.kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }), requestKey: randomUUID() });
      if (!booked.ok) throw new Error(booked.problems[0].message);
    } else {
      const asked = await createAsk(member, { castingId, fromDate: first.toString(), neededBy, importance, note: "" });
      if (!asked.ok) throw new Error(asked.problems[0].message);
    }
  }
  const day = (days: number): string => `${today.add({ days }).toString()}T09:00`;
  const broken = await beginOutage(manager, { equipmentId: world.kilnIds[0] ?? "", from: day(10), to: day(31), reason: "a burnt element" });
  if (!broken.ok) throw new Error(broken.problems[0].message);
  return { world, manager, runs: castings };
}
