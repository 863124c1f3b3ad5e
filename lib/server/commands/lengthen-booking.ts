import { Temporal } from "temporal-polyfill";
import { lengthenBookingSchema } from "@/lib/contracts/runs";
import { laterEnd, type LaterEnd } from "@/lib/domain/booking/lengthen";
import { refuse, type Outcome } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { changeEnd, type OpenEnd } from "@/lib/server/runs/change-end";

/** Holds a firing's kiln for longer and moves its unloading to then; the rest of the run stays. */
export const lengthenBooking = command({
  name: "lengthen-booking",
  needs: "book-runs",
  input: lengthenBookingSchema,
  once: ({ requestKey }) => requestKey,
  run: (ctx, input) =>
    changeEnd(ctx, input, {
      because: "the booking was lengthened",
      newEnd: (open, firing) => longerEnd(open, firing, Temporal.Instant.from(input.kilnTo), ctx.who.timeZone),
      told: ({ kilnTo }, { name }, title) => `lengthened your run for ${title} in ${name} until ${showTime(kilnTo, ctx.who.timeZone)}.`,
    }),
});

function longerEnd({ kiln, kilnFrom, booked, question }: OpenEnd, { expectedEnd }: LockedFiring, wanted: Temporal.Instant, timeZone: string): Outcome<LaterEnd> {
  if (Temporal.Instant.compare(wanted, booked) <= 0) {
    const until = showTime(booked, timeZone);
    return refuse({
      code: "not-longer",
      field: "kilnTo",
      value: wanted.toString(),
      allowed: `later than ${until}`,
      message: `${kiln.name} is booked until ${until} already; choose a later time.`,
    });
  }
  return laterEnd(question, kiln, { kilnFrom, notFreeBefore: wanted, coolAt: expectedEnd === null ? null : toInstant(expectedEnd) });
}
