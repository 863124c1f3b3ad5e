import { z } from "zod";

/** An instant as ISO 8601 with its offset, e.g. "2027-01-05T09:30:00+01:00". */
const instant = z.iso.datetime({ offset: true });

/** Made once with the page, so that a doubled click or a retried request is answered once. */
export const requestKeySchema = z.string().min(8).max(200);

const note = z.string().trim().max(500);

/** Long enough to say something to the person whose run it is. Characters, outer spaces not counted. */
export const REASON_MIN_CHARS = 10;

const reason = z
  .string()
  .trim()
  .min(REASON_MIN_CHARS, `Give a reason of at least ${REASON_MIN_CHARS} characters; the people concerned read it.`)
  .max(500);

export const bookRunSchema = z.strictObject({
  castingId: z.uuid(),
  kilnId: z.uuid(),
  /** Door closed. */
  kilnFrom: instant,
  /** When the steam-out starts that was offered with it; left out when there is none. */
  steamFrom: instant.optional(),
  requestKey: requestKeySchema,
});

/** The same question, for a run that is only held. */
export const holdRunSchema = bookRunSchema;

/** The most that a workshop may let each member hold at once; the database holds it too. */
export const MOST_HOLDS = 20;

export const setHoldLimitSchema = z.strictObject({ holdsEach: z.number().int().min(0).max(MOST_HOLDS) });

export const confirmHoldSchema = z.strictObject({ firingId: z.uuid(), requestKey: requestKeySchema.optional() });

export const cancelRunSchema = z.strictObject({ firingId: z.uuid(), reason: note.optional(), requestKey: requestKeySchema.optional() });

export const releaseRunSchema = z.strictObject({ firingId: z.uuid(), reason, requestKey: requestKeySchema.optional() });

export const moveRunSchema = z.strictObject({
  firingId: z.uuid(),
  kilnId: z.uuid(),
  kilnFrom: instant,
  steamFrom: instant.optional(),
  /** Needed when the run is another's; see move-run. */
  reason: note.optional(),
  /** The version the person saw; a later one means somebody changed the run meanwhile. */
  version: z.number().int().min(1),
  requestKey: requestKeySchema,
});

export const replanRunSchema = z.strictObject({
  firingId: z.uuid(),
  /** Needed when the run is another's. */
  reason: note.optional(),
  /** The version the person saw. */
  version: z.number().int().min(1),
  requestKey: requestKeySchema,
});

export const lengthenBookingSchema = z.strictObject({
  firingId: z.uuid(),
  /** Not free before this. */
  kilnTo: instant,
  reason: note.optional(),
  requestKey: requestKeySchema.optional(),
});

export const shortenBookingSchema = z.strictObject({
  firingId: z.uuid(),
  /** Free by then, or a little later when nobody can unload before. */
  kilnTo: instant,
  reason: note.optional(),
  requestKey: requestKeySchema.optional(),
});

export const setExpectedEndSchema = z.strictObject({
  firingId: z.uuid(),
  /** When the kiln will really be cool enough to unload. */
  at: instant,
  reason: z.string().trim().min(3, "Say in a few words why.").max(500),
});

export const IMPORTANCE = [
  { value: 1, label: "It can wait" },
  { value: 2, label: "It matters" },
  { value: 3, label: "Much hangs on it" },
] as const;

export const MOST_LATE_DAYS = 60;

const asked = {
  /** A day of the workshop's own calendar; nothing of the run begins before. */
  fromDate: z.iso.date(),
  /** The piece is ready by the end of that day; without it, that of the casting. */
  neededBy: z.iso.date().optional(),
  /** How many days later would still do. */
  lateDays: z.number().int().min(0).max(MOST_LATE_DAYS).default(0),
  importance: z.union([z.literal(1), z.literal(2), z.literal(3)]),
  note,
};

export const createAskSchema = z.strictObject({
  castingId: z.uuid(),
  /** Weeks of this kiln are wished for, from its first possible loading on; without one, any run on any kiln in time. */
  kilnId: z.uuid().optional(),
  ...asked,
});

export const changeAskSchema = z.strictObject({ askId: z.uuid(), ...asked });

export const withdrawAskSchema = z.strictObject({ askId: z.uuid() });

export const declineAskSchema = z.strictObject({ askId: z.uuid(), reason });

export const bookAskSchema = z.strictObject({ askId: z.uuid(), requestKey: requestKeySchema });
