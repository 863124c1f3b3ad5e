import type { TaskList } from "graphile-worker";
import { z } from "zod";
import { deliver } from "@/lib/server/mail/deliver";

const MailPayload = z.object({ mailId: z.uuid(), workshopId: z.uuid().nullable() });

/** What a job's name makes the worker do. */
export const TASKS: TaskList = {
  "send-mail": async (payload) => deliver(MailPayload.parse(payload)),
};
