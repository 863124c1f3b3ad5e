/**
 * Who may do what in a workshop, as one table. A person may hold several roles; any one of them that
 * allows a thing is enough. Ownership ("only my own casting", "only my own run") is not decided here:
 * the command that knows the owner asks for it as well.
 */
export type Role = "member" | "manager" | "assistant";

export const ROLES: readonly Role[] = ["member", "manager", "assistant"];

/** The roles among these words; what is none is left out. */
export function rolesOf(words: readonly string[]): readonly Role[] {
  return ROLES.filter((role) => words.includes(role));
}

const ALLOWED = {
  /** Castings of one's own. */
  "write-castings": ["member", "manager"],
  /** Book, move and cancel runs of one's own. */
  "book-runs": ["member", "manager"],
  /** Move, release and cancel anybody's run, with a reason. */
  "manage-runs": ["manager"],
  "settle-clashes": ["manager"],
  /** Calendar, kiln wall and firings: everybody in the room needs to know what is hot. */
  "see-workshop": ["member", "manager", "assistant"],
  "see-lifts": ["member", "manager", "assistant"],
  "tick-checks": ["member", "manager", "assistant"],
  /** Let a firing start although a blocking item is not ticked, with a reason. */
  "override-checks": ["manager"],
  "start-firings": ["member", "manager", "assistant"],
  "open-firings": ["member", "manager", "assistant"],
  "manage-people": ["manager"],
  "manage-equipment": ["manager"],
  "manage-hours": ["manager"],
  "manage-power": ["manager"],
  /** The audit record: who changed what, when and why. */
  "read-record": ["manager"],
} as const satisfies Readonly<Record<string, readonly Role[]>>;

export type Capability = keyof typeof ALLOWED;

/** Whether any of these roles allows it. No role, no capability: strangers may do nothing. */
export function can(roles: readonly Role[], capability: Capability): boolean {
  const allowed: readonly Role[] = ALLOWED[capability];
  return roles.some((role) => allowed.includes(role));
}
