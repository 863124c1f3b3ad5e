import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type pg from "pg";
import type { Outcome } from "@/lib/domain/refusal";
import type { Who } from "@/lib/server/who";
import { pebble, writeWorld, type WorldWish } from "./write-world";

/** A run or an ask, its kiln, another one that takes it, and its day from the first. */
export type BookedRun = { readonly runId: string; readonly isAsk: boolean; readonly homeId: string; readonly awayId: string; readonly day: number };
export type BookedWorld = {
  readonly manager: Who;
  readonly firstDay: Temporal.PlainDate;
  readonly runs: readonly BookedRun[];
  readonly asks: readonly BookedRun[];
  /** A plan of a whole year that waits to be accepted; its id. */
  readonly season: () => Promise<string>;
};

const DAYS_BETWEEN = 9;

/** A workshop whose members booked runs and asked for others, all by the commands. */
export async function bookedWorld(owner: pg.Client, wish: WorldWish & { readonly bookings: number; readonly asks: number }): Promise<BookedWorld> {
  const { createCasting } = await import("@/lib/server/commands/create-casting");
  const { createAsk } = await import("@/lib/server/commands/create-ask");
  const { bookRun } = await import("@/lib/server/commands/book-run");
  const { findTime } = await import("@/lib/server/queries/find-time");
  const world = await writeWorld(owner, wish);
  const [manager] = world.members;
  if (manager === undefined) throw new Error("nobody");
  const firstDay = Temporal.Now.zonedDateTimeISO(manager.timeZone).toPlainDate();
  const of = (i: number): Who => world.members[i % world.members.length] ?? manager;
  const casting = async (i: number): Promise<string> => must(await createCasting(of(i), { title: `Pebble ${i}`, input: pebble(60 + 10 * (i % 5)), neededBy: null, requestKey: randomUUID() })).castingId;
  const kiln = (i: number): string => world.kilnIds[i % world.kilnIds.length] ?? "";
  const runs: BookedRun[] = [];
  for (let i = 0; i < wish.bookings; i++) {
    const castingId = await casting(i);
    const offer = (await findTime(of(i), { castingId }))?.offers.kilns.find(({ kilnId }) => kilnId === kiln(i))?.runs[0];
    if (offer === undefined) throw new Error("nothing is free");
    const { firingId } = must(await bookRun(of(i), { castingId, kilnId: kiln(i), kilnFrom: offer.kilnFrom, ...(offer.steamFrom === null ? {} : { steamFrom: offer.steamFrom }), requestKey: randomUUID() }));
    const day = firstDay.until(Temporal.Instant.from(offer.kilnFrom).toZonedDateTimeISO(manager.timeZone).toPlainDate(), { largestUnit: "days" }).days;
    runs.push({ runId: firingId, isAsk: false, homeId: kiln(i), awayId: kiln(i % 4 < 2 ? i : i ^ 1), day });
  }
  const asks: BookedRun[] = [];
  for (let i = 0; i < wish.asks; i++) {
    const castingId = await casting(i);
    const { askId } = must(await createAsk(of(i), { castingId, fromDate: firstDay.add({ days: 7 }).toString(), neededBy: firstDay.add({ months: 10 }).toString(), importance: 2, note: "" }));
    asks.push({ runId: askId, isAsk: true, homeId: kiln(i), awayId: kiln(i), day: 70 + DAYS_BETWEEN * Math.floor(i / wish.kilns) });
  }
  const season = async (): Promise<string> => {
    const replanId = randomUUID();
    await owner.query("INSERT INTO replan (workshop_id, replan_id, member_id, from_day, to_day, seconds, state, plan) VALUES ($1, $2, $3, $4, $5, 20, 'ready', '{}')", [world.workshopId, replanId, manager.memberId, firstDay.toString(), firstDay.add({ months: 12 }).toString()]);
    return replanId;
  };
  return { manager, firstDay, runs, asks, season };
}

function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value;
}
