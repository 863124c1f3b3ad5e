import { Temporal } from "temporal-polyfill";
import { shortenBookingSchema } from "@/lib/contracts/runs";
import { earlierEnd } from "@/lib/domain/booking/shorten";
import { MS_PER_HOUR } from "@/lib/domain/time/interval";
import { showTime } from "@/lib/domain/time/show-time";
import { toInstant } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { storedPlan } from "@/lib/server/rows/casting-plan";
import type { LockedFiring } from "@/lib/server/rows/lock-firing";
import { changeEnd } from "@/lib/server/runs/change-end";

/** Gives the end of a firing's kiln time back: its unloading moves forward, and what follows is free for others at once. */
export const shortenBooking = command({
  name: "shorten-booking",
  needs: "book-runs",
  input: shortenBookingSchema,
  once: ({ requestKey }) => requestKey,
  run: (ctx, input) =>
    changeEnd(ctx, input, {
      because: "the booking was shortened",
      newEnd: ({ kiln, kilnFrom, booked, question }, firing) => earlierEnd(question, kiln, { kilnFrom, booked, wanted: Temporal.Instant.from(input.kilnTo), coolAt: coolAt(firing, kilnFrom) }),
      told: ({ unloadFrom }, { name }, title) => `shortened your run for ${title} in ${name}: it is unloaded ${showTime(unloadFrom, ctx.who.timeZone)}.`,
    }),
});

/** As somebody said who stands beside the kiln; else when what the plan reserves is over. */
function coolAt({ expectedEnd, plan }: LockedFiring, kilnFrom: Temporal.Instant): Temporal.Instant {
  if (expectedEnd !== null) return toInstant(expectedEnd);
  return kilnFrom.add({ milliseconds: Math.ceil(storedPlan(plan.outputs).reservation.hours * MS_PER_HOUR) });
}
