import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import type { DemoCasting, DemoStory } from "@/prisma/demo/castings";
import { DEMO_WORKSHOP } from "@/prisma/demo/workshop";
import type { Outcome } from "@/lib/domain/refusal";
import { nextStaffedDay } from "@/lib/domain/time/staffed-hours";
import { atInstant } from "@/lib/server/clock";
import { answerCheck } from "@/lib/server/commands/answer-check";
import { bookRun } from "@/lib/server/commands/book-run";
import { createAsk } from "@/lib/server/commands/create-ask";
import { createCasting } from "@/lib/server/commands/create-casting";
import { markOpened } from "@/lib/server/commands/mark-opened";
import { setExpectedEnd } from "@/lib/server/commands/set-expected-end";
import { startFiring } from "@/lib/server/commands/start-firing";
import { inWorkshop } from "@/lib/server/db";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import { loadCheckSheet } from "@/lib/server/rows/check-sheet";
import { loadHours } from "@/lib/server/rows/workshop-hours";
import type { Who } from "@/lib/server/who";
import type { DemoPlace } from "./write-workshop";

const zone = DEMO_WORKSHOP.timeZone;

/** A refusal in the demo is a bug of the demo: it is told and nothing is left half done silently. */
export function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.problems.map((problem) => problem.message).join(" "));
  return outcome.value;
}

/** Describes a casting and lets happen to it what its story says, through the same commands people use. */
export async function tellStory(place: DemoPlace, casting: DemoCasting, today: Temporal.PlainDate): Promise<{ castingId: string; firingId: string | null }> {
  const who = place.people.get(casting.owner);
  if (who === undefined) throw new Error(`nobody is ${casting.owner}`);
  const { story } = casting;
  const told = morningOf(today.add({ days: Math.min(-3, "inDays" in story ? story.inDays - 9 : -3) }));
  return atInstant(told, async () => {
    const neededBy = casting.neededInDays === null ? null : today.add({ days: casting.neededInDays }).toString();
    const { castingId } = must(await createCasting(who, { title: casting.title, input: casting.input, neededBy, requestKey: randomUUID() }));
    if (story.is === "described") return { castingId, firingId: null };
    const kilnId = place.equipment.get(story.kiln) ?? "";
    if (story.is === "asked") {
      const fromDate = today.add({ days: story.inDays }).toString();
      must(await createAsk(who, { castingId, kilnId, fromDate, importance: 3, note: story.note }));
      return { castingId, firingId: null };
    }
    const day = await staffedDay(who, today.add({ days: story.inDays }));
    const firingId = await bookNear(who, castingId, kilnId, day.toZonedDateTime({ timeZone: zone, plainTime: "10:30" }).toInstant());
    await run(who, firingId, story);
    return { castingId, firingId };
  });
}

function morningOf(day: Temporal.PlainDate): Temporal.Instant {
  return day.toZonedDateTime({ timeZone: zone, plainTime: "08:00" }).toInstant();
}

async function staffedDay(who: Who, day: Temporal.PlainDate): Promise<Temporal.PlainDate> {
  const hours = await inWorkshop(who.workshopId, (tx) => loadHours(tx, who));
  return nextStaffedDay(hours, day.subtract({ days: 1 })) ?? day;
}

/** Books at the wished start or, where that cannot be, at the next that can. */
async function bookNear(who: Who, castingId: string, kilnId: string, kilnFrom: Temporal.Instant): Promise<string> {
  const booked = await bookRun(who, { castingId, kilnId, kilnFrom: kilnFrom.toString(), requestKey: randomUUID() });
  if (booked.ok) return booked.value.firingId;
  const next = booked.problems[0].data?.["nextKilnStart"];
  if (typeof next !== "string") throw new Error(booked.problems[0].message);
  return must(await bookRun(who, { castingId, kilnId, kilnFrom: next, requestKey: randomUUID() })).firingId;
}

/** Starts and opens what the story says was started and opened, with every blocking item ticked in time. */
async function run(who: Who, firingId: string, story: DemoStory): Promise<void> {
  if (story.is !== "started" && story.is !== "opened") return;
  const firing = await inWorkshop(who.workshopId, (tx) => tx.firing.findFirstOrThrow({ where: { firingId }, include: { plan: true, bookings: { where: { standing: true } } } }));
  const at = (purpose: string, edge: "startsAt" | "endsAt") => {
    const booking = firing.bookings.find((one) => one.purpose === purpose);
    if (booking === undefined) throw new Error(`no ${purpose}`);
    return Temporal.Instant.fromEpochMilliseconds(booking[edge].getTime());
  };
  await atInstant(at("kiln", "startsAt"), async () => {
    await tick(who, firingId, "block");
    must(await startFiring(who, { firingId }));
  });
  if (story.is !== "opened") return;
  const { coolLateHours = 0 } = story;
  const cool = at("kiln", "startsAt").add({ hours: storedPlan(firing.plan.outputs).reservation.hours + coolLateHours });
  if (coolLateHours > 0) {
    await atInstant(cool.subtract({ hours: coolLateHours + 5 }), async () => must(await setExpectedEnd(who, { firingId, at: cool.toString(), reason: "The core is behind the kiln; a probe in the mould says so." })));
  }
  const tooLate = Temporal.Instant.compare(cool, at("unload", "startsAt")) > 0;
  const opened = tooLate ? await nextMorning(who, cool) : coolLateHours < 0 ? cool : at("unload", "endsAt");
  await atInstant(opened, async () => {
    await tick(who, firingId, "open");
    must(await markOpened(who, { firingId }));
  });
}

/** Somebody is there in the morning of the next staffed day. */
async function nextMorning(who: Who, after: Temporal.Instant): Promise<Temporal.Instant> {
  const day = await staffedDay(who, after.toZonedDateTimeISO(zone).toPlainDate().add({ days: 1 }));
  return day.toZonedDateTime({ timeZone: zone, plainTime: "10:15" }).toInstant();
}

async function tick(who: Who, firingId: string, level: "block" | "open"): Promise<void> {
  const sheet = await inWorkshop(who.workshopId, (tx) => loadCheckSheet(tx, firingId));
  for (const { code } of sheet?.items.filter((item) => item.level === level) ?? []) must(await answerCheck(who, { firingId, code, kind: "tick" }));
}
