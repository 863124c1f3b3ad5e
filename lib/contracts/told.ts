import { z } from "zod";

/**
 * What a person may be told of. Each leaves a notice in the product; whether it is mailed too is everybody's own
 * choice, and `mailed` is how that stands until somebody chooses. `subject` heads the mail, `todo` ends it.
 */
export const TOLD = {
  booked: { label: "A run is booked for you", subject: "A run was booked for you", todo: "Look at the times; move the run if they do not suit.", mailed: true },
  moved: { label: "Your run is moved or takes longer", subject: "Your run was moved", todo: "Look at the new times, and say so soon if they do not suit.", mailed: true },
  cancelled: { label: "Your run is taken off the calendar", subject: "Your run was taken off the calendar", todo: "Look for another time, or leave an ask.", mailed: true },
  offered: { label: "Time that became free is offered to you", subject: "Kiln time is offered to you", todo: "Take it or leave it; it goes to the next person when you do nothing.", mailed: true },
  "hold-lapsing": { label: "A time held for you is about to lapse", subject: "A time held for you is about to lapse", todo: "Confirm it, or let it go.", mailed: true },
  answered: { label: "An ask of yours is answered", subject: "Your ask was answered", todo: "Look at the answer, and at the times that are free.", mailed: true },
  clash: { label: "Something stands in the way of your run", subject: "Something stands in the way of your run", todo: "Nothing yet: the manager settles it, and you hear of it.", mailed: true },
  firing: { label: "Your firing is started, opened or expected at another time", subject: "News of your firing", todo: "Nothing needs doing, unless the time to unload does not suit you.", mailed: false },
  casting: { label: "Somebody changes a casting of yours", subject: "A casting of yours was changed", todo: "Look whether it is still what you want to cast.", mailed: false },
  membership: { label: "Your roles change", subject: "Your roles have changed", todo: "Nothing needs doing.", mailed: false },
} as const satisfies Readonly<Record<string, Told>>;

type Told = { readonly label: string; readonly subject: string; readonly todo: string; readonly mailed: boolean };

export type ToldKind = keyof typeof TOLD;

export const TOLD_KINDS = Object.keys(TOLD) as [ToldKind, ...ToldKind[]];

export const toldKindSchema = z.enum(TOLD_KINDS);
