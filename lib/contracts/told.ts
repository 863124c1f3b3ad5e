import { z } from "zod";
import type { Role } from "@/lib/domain/access/roles";

/** How a kind stands until a person chooses: mailed or not, for these roles only, or always without mail. */
type Usual = "mailed" | "not mailed" | readonly Role[] | "never mailed";

type Told = { readonly label: string; readonly subject: string; readonly todo: string; readonly usual: Usual };

/**
 * What a person may be told of. Each leaves a notice in the product; whether it is mailed too is everybody's own
 * choice. `label` names it among the choices, `subject` heads the mail, `todo` says what to do about it.
 */
export const TOLD = {
  booked: { label: "Somebody books a run for you", subject: "A run was booked for you", todo: "Look at the times; move the run if they do not suit.", usual: "mailed" },
  moved: { label: "Somebody moves or lengthens your run", subject: "Your run was moved", todo: "Look at the new times, and say so soon if they do not suit.", usual: "mailed" },
  cancelled: { label: "Your run is taken off the calendar", subject: "Your run was taken off the calendar", todo: "Look for another time, or leave an ask.", usual: "mailed" },
  offered: { label: "Time that became free is offered to you", subject: "Kiln time is offered to you", todo: "Take it or leave it; if you do nothing, it goes to somebody else.", usual: "mailed" },
  "hold-lapsing": { label: "A time held for you is about to lapse", subject: "A time held for you is about to lapse", todo: "Confirm it, or let it go.", usual: "mailed" },
  "hold-lapsed": { label: "A time held for you has lapsed", subject: "A time held for you has lapsed", todo: "Look for another time, or leave an ask.", usual: "mailed" },
  answered: { label: "An ask of yours is answered", subject: "Your ask was answered", todo: "Look at the answer, and at the times that are free.", usual: "mailed" },
  share: { label: "Somebody wants to share a firing with you, or answers", subject: "About sharing a firing", todo: "Look at the proposal; where your answer is wanted, give it before it lapses.", usual: "mailed" },
  clash: { label: "Something stands in the way of your run", subject: "Something stands in the way of your run", todo: "Nothing needs doing yet: the manager settles it, and you hear of it.", usual: "mailed" },
  replied: { label: "Somebody answers a settlement that moved their run", subject: "An answer to a settlement", todo: "Look whether something should be done; by itself an answer moves nothing.", usual: ["manager"] },
  firing: { label: "Your firing is started, opened, or will be cool at another time", subject: "News of your firing", todo: "Look whether the time to unload still suits you.", usual: "not mailed" },
  casting: { label: "Somebody changes or withdraws a casting of yours", subject: "A casting of yours was changed", todo: "Look whether it is still what you want to cast.", usual: "not mailed" },
  membership: { label: "Your roles or inductions change", subject: "Your roles or inductions have changed", todo: "Nothing needs doing.", usual: "not mailed" },
  undelivered: { label: "A mail could not be delivered", subject: "A mail could not be delivered", todo: "Tell them in another way.", usual: "never mailed" },
} as const satisfies Readonly<Record<string, Told>>;

export type ToldKind = keyof typeof TOLD;

/** Mailed once a day, and no notice: the product shows the same on the lift sheet. */
export const DAILY = {
  "tomorrow-lifts": { label: "Every load and lift of tomorrow", subject: "Tomorrow's loads and lifts", usual: ["assistant"] },
  "tomorrow-own": { label: "Your own loads and lifts of tomorrow", subject: "Your loads and lifts of tomorrow", usual: "mailed" },
} as const satisfies Readonly<Record<string, Omit<Told, "todo">>>;

export type DailyKind = keyof typeof DAILY;
export type MailKind = ToldKind | DailyKind;

const ALL: Readonly<Record<MailKind, Omit<Told, "todo">>> = { ...TOLD, ...DAILY };

/** What a person may choose, in the order in which it is shown. */
export const CHOOSABLE = (Object.keys(ALL) as MailKind[]).filter((kind) => ALL[kind].usual !== "never mailed");

export function mailLabel(kind: MailKind): string {
  return ALL[kind].label;
}

/** Whether a kind is mailed to somebody with these roles who has chosen nothing. */
export function usuallyMailed(kind: MailKind, roles: readonly string[]): boolean {
  const { usual } = ALL[kind];
  return typeof usual === "string" ? usual === "mailed" : usual.some((role) => roles.includes(role));
}

export const chooseMailSchema = z.strictObject({
  /** The kinds to be mailed; all others are not. */
  mailed: z.array(z.enum(CHOOSABLE as [MailKind, ...MailKind[]])),
});
