/** What a script's token may be allowed: to look, to calculate, to change the calendar. A token never does more than its owner's roles allow. */
export const SCOPES = ["read", "plan", "book"] as const;
export type Scope = (typeof SCOPES)[number];

export const SCOPE_WORDS: Readonly<Record<Scope, string>> = {
  read: "Read: equipment, castings, bookings, lifts",
  plan: "Plan: firing plans, finding time",
  book: "Book: describe castings; book, move and cancel runs",
};

export function isScope(text: string): text is Scope {
  return SCOPES.some((scope) => scope === text);
}
