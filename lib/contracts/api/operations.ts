import { z } from "zod";
import type { Scope } from "@/lib/domain/access/scopes";
import { bookingsAnswerSchema, bookingsQuery, liftsAnswerSchema, liftsQuery } from "./bookings-answer";
import { castingInputBody, castingsAnswerSchema, castingsQuery, newCastingAnswerSchema, newCastingBody } from "./castings-answer";
import { equipmentAnswerSchema } from "./equipment-answer";
import { planAnswerSchema } from "./plan-answer";
import type { ProblemType } from "./problem-types";
import { bookedAnswerSchema, bookRunBody, cancelledAnswerSchema, cancelRunBody, movedAnswerSchema, moveRunBody, runAnswerSchema } from "./runs-answer";
import { id } from "./shared";
import { moveTimesAnswerSchema, timesAnswerSchema, timesQuery } from "./times-answer";

type Shape = z.ZodObject;

/** One thing a script can ask for: the contract that its route parses by, and that the printed description is made from. */
export type Operation<P extends Shape = Shape, Q extends Shape = Shape, B extends z.ZodType = z.ZodType, A extends z.ZodType = z.ZodType> = {
  readonly id: string;
  readonly method: "get" | "post";
  /** Below /api/v1. */
  readonly path: string;
  readonly summary: string;
  readonly about?: string;
  readonly scope: Scope;
  readonly params: P;
  readonly query: Q;
  /** null for a request without a body. */
  readonly body: B | null;
  readonly answer: A;
  readonly status: 200 | 201;
  /** Takes an Idempotency-Key. */
  readonly keyed: boolean;
  /** What else it may be refused with, beside what every request may. */
  readonly refusals: readonly ProblemType[];
};

const none = z.strictObject({});
const noBody: z.ZodNull | null = null;
const ofCasting = z.strictObject({ castingId: id });
const ofRun = z.strictObject({ firingId: id });

function operation<P extends Shape, Q extends Shape, B extends z.ZodType, A extends z.ZodType>(one: Operation<P, Q, B, A>): Operation<P, Q, B, A> {
  return one;
}

export const OPERATIONS = {
  listEquipment: operation({
    id: "listEquipment", method: "get", path: "/equipment", scope: "read", summary: "List equipment",
    about: "Kilns, steamers and trolleys in use, with their limits and when they are out of service.",
    params: none, query: none, body: noBody, answer: equipmentAnswerSchema, status: 200, keyed: false, refusals: [],
  }),
  planCasting: operation({
    id: "planCasting", method: "post", path: "/plans", scope: "plan", summary: "Plan a casting",
    about: "Works out glass, mould, pot, firing plan, stresses, kiln-hours, energy and lifts. Nothing is kept. Numbers are planning estimates.",
    params: none, query: none, body: castingInputBody, answer: planAnswerSchema, status: 200, keyed: false, refusals: ["not-found", "refused"],
  }),
  listCastings: operation({
    id: "listCastings", method: "get", path: "/castings", scope: "read", summary: "List castings",
    about: "Those of the token's owner, with what each needs next.",
    params: none, query: castingsQuery, body: noBody, answer: castingsAnswerSchema, status: 200, keyed: false, refusals: ["not-allowed", "refused"],
  }),
  createCasting: operation({
    id: "createCasting", method: "post", path: "/castings", scope: "book", summary: "Describe a casting",
    about: "A run is booked for a casting. Refused when it could not be planned.",
    params: none, query: none, body: newCastingBody, answer: newCastingAnswerSchema, status: 201, keyed: true, refusals: ["not-allowed", "not-found", "refused"],
  }),
  findTime: operation({
    id: "findTime", method: "get", path: "/castings/{castingId}/times", scope: "plan", summary: "Find time for a casting",
    about: "The earliest runs on every kiln, within 18 months, or one line why a kiln offers none.",
    params: ofCasting, query: timesQuery, body: noBody, answer: timesAnswerSchema, status: 200, keyed: false, refusals: ["not-allowed", "not-found", "conflict", "refused"],
  }),
  bookRun: operation({
    id: "bookRun", method: "post", path: "/runs", scope: "book", summary: "Book a run",
    about: "Books steamer, lifts and kiln together, or nothing. `Location` is the address of the run.",
    params: none, query: none, body: bookRunBody, answer: bookedAnswerSchema, status: 201, keyed: true, refusals: ["not-allowed", "not-found", "conflict", "refused"],
  }),
  readRun: operation({
    id: "readRun", method: "get", path: "/runs/{firingId}", scope: "read", summary: "Read a run",
    params: ofRun, query: none, body: noBody, answer: runAnswerSchema, status: 200, keyed: false, refusals: ["not-found"],
  }),
  findMove: operation({
    id: "findMove", method: "get", path: "/runs/{firingId}/times", scope: "plan", summary: "Find time to move a run to",
    params: ofRun, query: timesQuery, body: noBody, answer: moveTimesAnswerSchema, status: 200, keyed: false, refusals: ["not-allowed", "not-found", "conflict", "refused"],
  }),
  moveRun: operation({
    id: "moveRun", method: "post", path: "/runs/{firingId}/move", scope: "book", summary: "Move a run",
    about: "Moves everything of a planned run together, or nothing. On its own kiln it keeps its firing plan; on another it is planned anew.",
    params: ofRun, query: none, body: moveRunBody, answer: movedAnswerSchema, status: 200, keyed: true, refusals: ["not-allowed", "not-found", "conflict", "refused"],
  }),
  cancelRun: operation({
    id: "cancelRun", method: "post", path: "/runs/{firingId}/cancel", scope: "book", summary: "Cancel a run",
    about: "Gives a planned run of one's own back; all of it is free at once.",
    params: ofRun, query: none, body: cancelRunBody, answer: cancelledAnswerSchema, status: 200, keyed: true, refusals: ["not-allowed", "not-found", "conflict", "refused"],
  }),
  listBookings: operation({
    id: "listBookings", method: "get", path: "/bookings", scope: "read", summary: "List bookings",
    about: "All standing bookings that touch the days from `from` up to, not including, `to`.",
    params: none, query: bookingsQuery, body: noBody, answer: bookingsAnswerSchema, status: 200, keyed: false, refusals: ["refused"],
  }),
  listLifts: operation({
    id: "listLifts", method: "get", path: "/lifts", scope: "read", summary: "List the lifts of a day",
    params: none, query: liftsQuery, body: noBody, answer: liftsAnswerSchema, status: 200, keyed: false, refusals: ["refused"],
  }),
} as const;

/** What every request may be refused with. */
export const ALWAYS: readonly ProblemType[] = ["token-needed", "scope-missing", "too-fast", "fault"];
/** What a request with a body may be refused with too. */
export const WITH_BODY: readonly ProblemType[] = ["malformed", "too-large", "not-json", "refused"];
