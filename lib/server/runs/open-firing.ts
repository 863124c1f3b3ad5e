import { randomUUID } from "node:crypto";
import { paths } from "@/lib/contracts/paths";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toPlainDate } from "@/lib/server/clock";
import type { CtxOf } from "@/lib/server/command";
import type { Temporal } from "temporal-polyfill";
import { GROUND_ID } from "@/lib/server/rows/kept-ground";
import { holdRun, partsOf } from "@/lib/server/runs/hold-run";
import { lockCalendar, shareCalendar, shareStatements } from "@/lib/server/runs/lock-calendar";
import { placeRun, type Placed } from "@/lib/server/runs/place-run";
import { writeNewFiring } from "@/lib/server/runs/write-new-firing";
import { runForRecord } from "@/lib/server/runs/write-run";
import { sql, type Sql, type Statements } from "@/lib/server/statements";
import { tell, type Telling } from "@/lib/server/tell";

export type CastingToBook = {
  readonly castingId: string;
  readonly memberId: string;
  readonly title: string;
  readonly input: unknown;
  readonly neededBy: Date | null;
};

export type WantedTimes = {
  readonly kilnId: string;
  readonly kilnFrom: Temporal.Instant;
  readonly steamFrom?: Temporal.Instant | undefined;
};

export type Opened = { readonly firingId: string };

export type Holding = {
  /** Until when the run that is found is held, or why it cannot be. */
  readonly until: (placed: Placed) => Promise<Outcome<Temporal.Instant>>;
  /** The ask that it is offered to. */
  readonly askId?: string;
};

/** Whoever opens it: a person by a command, or a job, which is no member. */
export type Opener = Pick<CtxOf<Statements>, "tx" | "now" | "audit"> & { readonly who: Telling["who"] & { readonly memberId: string | null; readonly name: string } };

/**
 * Books the whole run of a casting and opens its firing: plan, bookings, lifts and check sheet, or nothing.
 * @param holding the run is only held, for its member or as an offer
 */
export async function openFiring(ctx: Opener, casting: CastingToBook, times: WantedTimes, holding?: Holding): Promise<Outcome<Opened>> {
  const input = readCastingInput(casting.input);
  if (!input.ok) return input;
  await (holding === undefined ? shareCalendar(ctx) : lockCalendar(ctx));
  const [booked] = await ctx.tx.$queryRaw<readonly { readonly firing_id: string }[]>(bookedStatement(casting.castingId));
  if (booked !== undefined) return refuse({ ...ALREADY_BOOKED, data: { firingId: booked.firing_id } });
  const neededBy = casting.neededBy === null ? null : toPlainDate(casting.neededBy);
  const placed = await placeRun(ctx, { ...times, input: input.value, neededBy, ownerId: casting.memberId }, {
    take: (one) => holdRun(ctx.tx, ctx.who, one),
    partsOf: (one) => partsOf(ctx.who, one),
  });
  if (!placed.ok) return placed;
  const until = holding === undefined ? ok(null) : await holding.until(placed.value);
  if (!until.ok) return until;
  return ok({ firingId: await writeFiring(ctx, casting, placed.value, until.value === null ? null : { until: until.value, askId: holding?.askId ?? null }) });
}

/** What a booking asks before its run is placed, in this order. */
export function openingStatements(asked: Pick<Opener, "now" | "who">, castingId: string): readonly Sql[] {
  return [...shareStatements(asked), bookedStatement(castingId), GROUND_ID];
}

function bookedStatement(castingId: string): Sql {
  return sql`/* prepared */ SELECT firing_id FROM firing_casting WHERE workshop_id = current_workshop() AND casting_id = ${castingId}::uuid AND standing`;
}

async function writeFiring(ctx: Opener, casting: CastingToBook, { run, plan, planInput, kiln }: Placed, held: Held | null): Promise<string> {
  const { tx, who, now } = ctx;
  const { workshopId } = who;
  const { castingId, memberId } = casting;
  const [planId, firingId] = [randomUUID(), randomUUID()];
  await writeNewFiring(tx, { workshopId, planId, firingId, castingId, memberId, metBy: who.name, at: toDate(now), heldUntil: held === null ? null : toDate(held.until), askId: held?.askId ?? null }, { run, plan, planInput });
  await ctx.audit({ subject: "firing", subjectId: firingId, after: { ...(held === null ? { status: "planned" } : { status: "held", heldUntil: held.until.toString() }), castingId, planId, ...runForRecord(run) } });
  if (memberId !== who.memberId) await tellOwner(ctx, casting, { run, kiln, firingId }, held);
  return firingId;
}

type Held = { readonly until: Temporal.Instant; readonly askId: string | null };

async function tellOwner(ctx: Opener, { title, memberId }: CastingToBook, { run, kiln, firingId }: Pick<Placed, "run" | "kiln"> & Opened, held: Held | null): Promise<void> {
  const { timeZone, name } = ctx.who;
  const href = paths.firing(firingId);
  const from = showTime(run.kilnFrom, timeZone);
  if (held === null) return tell(ctx, { to: [memberId], kind: "booked", text: bookedText(name, kiln.name, from, title), href });
  const until = showTime(held.until, timeZone);
  if (held.askId === null) return tell(ctx, { to: [memberId], kind: "booked", text: `${name} holds ${kiln.name} from ${from} for ${title}, until ${until}.`, href });
  const late = run.daysLate === 0 ? "" : `, ${run.daysLate === 1 ? "a day" : `${run.daysLate} days`} after the date it is needed by`;
  const text = `${kiln.name} is free from ${from} and offered to you for ${title}, ready ${showTime(run.readyAt, timeZone)}${late}. It is held for you until ${until}.`;
  return tell(ctx, { to: [memberId], kind: "offered", text, href, until: held.until });
}

export function bookedText(by: string, kilnName: string, from: string, title: string): string {
  return `${by} booked ${kilnName} from ${from} for ${title}.`;
}

export const ALREADY_BOOKED = {
  code: "already-booked",
  field: "castingId",
  message: "This casting has a run already. Move that one, or cancel it first.",
};
