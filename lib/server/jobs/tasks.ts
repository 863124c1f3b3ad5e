import type { TaskList } from "graphile-worker";
import { z } from "zod";
import { tellTomorrow } from "@/lib/server/jobs/tell-tomorrow";
import { deliver } from "@/lib/server/mail/deliver";

const MailPayload = z.object({ mailId: z.uuid(), workshopId: z.uuid().nullable() });

/** What a job's name makes the worker do. */
export const TASKS: TaskList = {
  "send-mail": async (payload) => deliver(MailPayload.parse(payload)),
  "tell-tomorrow": async (_, { query }) => {
    const { rows } = await query<{ workshop_id: string }>("SELECT workshop_id FROM workshop");
    await tellTomorrow(rows.map((row) => row.workshop_id));
  },
};

/** Every five minutes, by one of the processes: which workshops' hour has come is seen when it runs. */
export const CRONTAB = "*/5 * * * * tell-tomorrow ?jobKey=tell-tomorrow";
