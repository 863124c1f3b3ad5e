import type { ClashKind } from "@/lib/domain/booking/clash";

export const CLASH_WORDS: Readonly<Record<ClashKind, string>> = {
  crowded: "Crowded",
  overrun: "Overrun",
  outage: "Out of service",
  "thin-crew": "Thin crew",
  overload: "Overload",
};

/** What usually helps, in the order in which to think of it. */
export const CLASH_HELP: Readonly<Record<ClashKind, string>> = {
  crowded: "Move or release the run that stands there, then book the ask; or decline the ask with a reason.",
  overrun: "Move what comes after it, then lengthen this booking.",
  outage: "Move the run to another kiln or another time, end the outage, or enter when the next inspection is due.",
  "thin-crew": "Move one of the runs, or put more people on duty.",
  overload: "Move one of the runs so that fewer kilns heat at the same time. Only the electrician changes the limit.",
};

export const IMPORTANCE_WORDS: Readonly<Record<number, string>> = { 1: "can wait", 2: "matters", 3: "much hangs on it" };
