import { z } from "zod";

/** The longest season that may be planned anew. */
export const MOST_MONTHS = 18;

/** How long the search may take; longer mostly brings it nearer to the best possible. Seconds. */
export const REPLAN_SECONDS = [
  { seconds: 20, label: "20 seconds" },
  { seconds: 120, label: "2 minutes" },
  { seconds: 600, label: "10 minutes" },
] as const;

export const askReplanSchema = z.strictObject({
  /** Days of the workshop's own calendar, both of them in the season. */
  from: z.iso.date("The season's first day is missing; it must be a date like 2027-03-28."),
  to: z.iso.date("The season's last day is missing; it must be a date like 2027-09-30."),
  seconds: z.union(REPLAN_SECONDS.map(({ seconds }) => z.literal(seconds))),
});

export const stopReplanSchema = z.strictObject({ replanId: z.uuid() });

const place = z.object({ kilnId: z.uuid(), day: z.number().int() });

/** A season's plan as it is kept until somebody accepts it. Days count from `today`. */
export const seasonPlanSchema = z.object({
  /** Of all that it was made from. */
  fingerprint: z.string(),
  today: z.iso.date(),
  moves: z.array(
    z.object({
      runId: z.uuid(), title: z.string(), memberName: z.string(), from: place.nullable(), to: place,
      until: z.number(), steamDay: z.number().nullable(), days: z.number(), neededBy: z.number().nullable(), daysLate: z.number(),
    }),
  ),
  times: z.array(z.object({ runId: z.uuid(), kilnId: z.uuid(), kilnFrom: z.string(), kilnTo: z.string() })),
  figures: z.object({
    moved: z.number(), peopleMoved: z.number(), asksPlaced: z.number(), late: z.number(), daysLate: z.number(), weightedDaysLate: z.number(),
    otherKilns: z.number(), daysMoved: z.number(), nearChanges: z.number(),
  }),
  cost: z.number(),
  bound: z.number(),
  atMostPercent: z.number().nullable(),
  /** Asks that it leaves waiting, a sentence each. */
  aside: z.array(z.string()),
  stopped: z.boolean(),
});

export type SeasonPlan = z.infer<typeof seasonPlanSchema>;
