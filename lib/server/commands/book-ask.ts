import { Temporal } from "temporal-polyfill";
import { bookAskSchema } from "@/lib/contracts/runs";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import { toDate, toInstant } from "@/lib/server/clock";
import { command, type Ctx } from "@/lib/server/command";
import { inWorkshop } from "@/lib/server/db";
import { lockFiring } from "@/lib/server/rows/lock-firing";
import { confirmHeld } from "@/lib/server/runs/confirm-held";
import { lockOpenAsk, type AskRow } from "@/lib/server/runs/open-ask";
import { openFiring, type Opened } from "@/lib/server/runs/open-firing";
import { whoHolds } from "@/lib/server/runs/who-holds";

/** A wish names weeks, not an hour: a loading up to this much later still is what was wished for. */
const STILL_THOSE_WEEKS_HOURS = 96;

/** The manager books the weeks that somebody wished for, as a whole run, or what is offered to the wish at this moment; it is met and the member told. */
export const bookAsk = command({
  name: "book-ask",
  needs: "settle-clashes",
  input: bookAskSchema,
  once: ({ requestKey }) => requestKey,
  run: async (ctx, { askId }) => {
    const ask = await lockOpenAsk(ctx.tx, askId);
    if (!ask.ok) return ask;
    const offer = await ctx.tx.firing.findFirst({ where: { askId, status: "held", heldUntil: { gt: toDate(ctx.now) } }, select: { firingId: true } });
    const offered = offer === null ? null : await lockFiring(ctx.tx, offer.firingId);
    return offered === null ? book(ctx, ask.value) : confirmHeld(ctx, offered);
  },
  onConstraint: async (constraint, who, { askId }) => {
    if (constraint !== "booking_no_overlap") return undefined;
    const ask = await inWorkshop(who.workshopId, (tx) => tx.ask.findFirst({ where: { askId } }));
    return ask?.kilnId && ask.wishedFrom ? whoHolds(who, ask.kilnId, ask.wishedFrom.toISOString()) : undefined;
  },
});

async function book(ctx: Ctx, { casting, kilnId, wishedFrom }: AskRow): Promise<Outcome<Opened>> {
  if (kilnId === null || wishedFrom === null) {
    return refuse({ code: "no-weeks", field: "askId", message: `The ask for ${casting.title} names no weeks. Find time for the casting, and book one of the runs there.` });
  }
  const wished = toInstant(wishedFrom);
  const exact = await openFiring(ctx, casting, { kilnId, kilnFrom: wished });
  if (exact.ok) return exact;
  const next = exact.problems[0].data?.["nextKilnStart"];
  if (typeof next !== "string") return exact;
  const later = Temporal.Instant.from(next);
  const within = Temporal.Instant.compare(later, wished.add({ hours: STILL_THOSE_WEEKS_HOURS })) <= 0;
  return within ? openFiring(ctx, casting, { kilnId, kilnFrom: later }) : exact;
}
