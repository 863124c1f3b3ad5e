import { randomUUID } from "node:crypto";
import { paths } from "@/lib/contracts/paths";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toPlainDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import type { Temporal } from "temporal-polyfill";
import { holdRun, partsOf } from "@/lib/server/runs/hold-run";
import { lockCalendar, shareCalendar } from "@/lib/server/runs/lock-calendar";
import { placeRun, type Placed } from "@/lib/server/runs/place-run";
import { writeNewFiring } from "@/lib/server/runs/write-new-firing";
import { runForRecord } from "@/lib/server/runs/write-run";
import { tell } from "@/lib/server/tell";

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

/** Until when a run that is found is held, or why it cannot be. */
export type Holding = (placed: Placed) => Promise<Outcome<Temporal.Instant>>;

/**
 * Books the whole run of a casting and opens its firing: plan, bookings, lifts and check sheet, or nothing.
 * @param holding the run is only held, until the instant it says
 */
export async function openFiring(ctx: Ctx, casting: CastingToBook, times: WantedTimes, holding?: Holding): Promise<Outcome<Opened>> {
  const input = readCastingInput(casting.input);
  if (!input.ok) return input;
  await (holding === undefined ? shareCalendar(ctx) : lockCalendar(ctx));
  const [booked] = await ctx.tx.$queryRaw<readonly { readonly firing_id: string }[]>`/* prepared */ SELECT firing_id FROM firing_casting WHERE casting_id = ${casting.castingId}::uuid AND standing`;
  if (booked !== undefined) return refuse({ ...ALREADY_BOOKED, data: { firingId: booked.firing_id } });
  const neededBy = casting.neededBy === null ? null : toPlainDate(casting.neededBy);
  const placed = await placeRun(ctx, { ...times, input: input.value, neededBy, ownerId: casting.memberId }, {
    take: (one) => holdRun(ctx.tx, ctx.who, one),
    partsOf: (one) => partsOf(ctx.who, one),
  });
  if (!placed.ok) return placed;
  const until = holding === undefined ? ok(null) : await holding(placed.value);
  if (!until.ok) return until;
  return ok({ firingId: await writeFiring(ctx, casting, placed.value, until.value) });
}

async function writeFiring(ctx: Ctx, casting: CastingToBook, { run, plan, planInput, kiln }: Placed, until: Temporal.Instant | null): Promise<string> {
  const { tx, who, now } = ctx;
  const { workshopId } = who;
  const { castingId, memberId } = casting;
  const [planId, firingId] = [randomUUID(), randomUUID()];
  await writeNewFiring(tx, { workshopId, planId, firingId, castingId, memberId, metBy: who.name, at: toDate(now), heldUntil: until === null ? null : toDate(until) }, { run, plan, planInput });
  await ctx.audit({ subject: "firing", subjectId: firingId, after: { ...(until === null ? { status: "planned" } : { status: "held", heldUntil: until.toString() }), castingId, planId, ...runForRecord(run) } });
  if (memberId !== who.memberId) {
    const when = showTime(run.kilnFrom, who.timeZone);
    const text = until === null
      ? `${who.name} booked ${kiln.name} from ${when} for ${casting.title}.`
      : `${who.name} holds ${kiln.name} from ${when} for ${casting.title}, until ${showTime(until, who.timeZone)}.`;
    await tell(ctx, { to: [memberId], kind: "booked", text, href: paths.firing(firingId) });
  }
  return firingId;
}

export const ALREADY_BOOKED = {
  code: "already-booked",
  field: "castingId",
  message: "This casting has a run already. Move that one, or cancel it first.",
};
