import type { TaskList } from "graphile-worker";
import { z } from "zod";
import { tellTomorrow } from "@/lib/server/jobs/tell-tomorrow";
import { lapseHold, warnOfLapse } from "@/lib/server/jobs/hold-jobs";
import { lapseJoiningInTime } from "@/lib/server/jobs/joining-jobs";
import { lookForOffers } from "@/lib/server/jobs/look-for-offers";
import { prune } from "@/lib/server/jobs/prune";
import { computeReplan } from "@/lib/server/replan/compute-replan";
import { deliver } from "@/lib/server/mail/deliver";

const MailPayload = z.object({ mailId: z.uuid(), workshopId: z.uuid().nullable() });

const HoldPayload = z.object({ workshopId: z.uuid(), firingId: z.uuid() });
const JoiningPayload = z.object({ workshopId: z.uuid(), joiningId: z.uuid() });
const ReplanPayload = z.object({ workshopId: z.uuid(), replanId: z.uuid() });
const MOST_ATTEMPTS = 32_767;

/** What a job's name makes the worker do. */
export const TASKS: TaskList = {
  "send-mail": async (payload) => deliver(MailPayload.parse(payload)),
  "lapse-hold": async (payload, { addJob }) => {
    const hold = HoldPayload.parse(payload);
    const later = await lapseHold(hold);
    // This machine's clock may be behind the database's, by which the job was called.
    if (later !== undefined) await addJob("lapse-hold", hold, { runAt: later, maxAttempts: MOST_ATTEMPTS, jobKey: `lapse:${hold.firingId}` });
  },
  "warn-of-lapse": async (payload) => warnOfLapse(HoldPayload.parse(payload)),
  "lapse-joining": async (payload, { addJob }) => {
    const joining = JoiningPayload.parse(payload);
    const later = await lapseJoiningInTime(joining);
    if (later !== undefined) await addJob("lapse-joining", joining, { runAt: later, maxAttempts: MOST_ATTEMPTS, jobKey: `joining:${joining.joiningId}` });
  },
  "look-for-offers": async (payload) => lookForOffers(z.object({ workshopId: z.uuid() }).parse(payload).workshopId),
  replan: async (payload, { abortSignal }) => computeReplan(ReplanPayload.parse(payload), abortSignal),
  "tell-tomorrow": async (_, { query }) => {
    const { rows } = await query<{ workshop_id: string }>("SELECT workshop_id FROM workshop");
    await tellTomorrow(rows.map((row) => row.workshop_id));
  },
  prune: async (_, { query }) => prune(query),
};

/** By one of the processes, and by each once when it starts: one that was not there at the minute catches up. */
export const AT_SET_TIMES = ["tell-tomorrow", "prune"] as const;

/** Which workshops' hour has come is seen when it runs; pruning is for the night of most of them (times are UTC). */
export const CRONTAB = `*/5 * * * * tell-tomorrow ?jobKey=tell-tomorrow
17 2 * * * prune ?jobKey=prune`;
