import { can, type Role } from "@/lib/domain/access/roles";
import { ok, refuse, type Outcome, type Refusal } from "@/lib/domain/refusal";
import { stateOf, type CheckAnswer, type ItemState } from "./check-sheet";
import type { SheetItem } from "./sheet-for";

/** Shorter reasons say nothing to whoever reads the record later. Characters, outer spaces not counted. */
export const REASON_MIN_CHARS = 10;

/**
 * Until it starts, a firing's blocking items change; while it runs, only reminders and what concerns
 * opening; once closed, nothing. So what let a firing start stays on record as it was.
 */
export type SheetMoment = "before-start" | "running" | "closed";

export type CheckSheet = {
  readonly items: readonly SheetItem[];
  readonly answers: readonly CheckAnswer[];
  readonly moment: SheetMoment;
};

/** Whether this answer may be added to the sheet by somebody with these roles; the value is that answer. */
export function mayAnswer(sheet: CheckSheet, answer: CheckAnswer, roles: readonly Role[]): Outcome<CheckAnswer> {
  if (sheet.moment === "closed") {
    return refuse({ code: "sheet-closed", message: "This check sheet is closed; nothing on it can change.", field: answer.code });
  }
  const state = stateOf(sheet.items, sheet.answers).find(({ item }) => item.code === answer.code);
  if (state === undefined) {
    return refuse({
      code: "unknown-check",
      message: `This check sheet has no item ${answer.code}.`,
      field: "code",
      value: answer.code,
      allowed: sheet.items.map((item) => item.code).join(", "),
    });
  }
  return (
    wrongMoment(state.item, sheet.moment) ?? wrongPerson(answer, roles) ?? wrongChange(state, answer) ?? ok(answer)
  );
}

function wrongMoment(item: SheetItem, moment: Exclude<SheetMoment, "closed">): Refusal | undefined {
  if (item.level === "block" && moment === "running") {
    return refuse({
      code: "already-started",
      message: `${item.code} belongs to the start, and the firing has started; it stays as it was.`,
      field: item.code,
    });
  }
  if (item.level === "open" && moment === "before-start") {
    return refuse({
      code: "not-started",
      message: `${item.code} belongs to opening the kiln, and the firing has not started.`,
      field: item.code,
    });
  }
  return undefined;
}

function wrongPerson(answer: CheckAnswer, roles: readonly Role[]): Refusal | undefined {
  const capability = answer.kind === "override" ? "override-checks" : "tick-checks";
  if (can(roles, capability)) return undefined;
  const who = answer.kind === "override" ? "Only the manager may override an item" : "Only people of this workshop may tick an item";
  return refuse({ code: "not-allowed", message: `${who}; ${answer.code} stays as it is.`, field: answer.code });
}

function wrongChange({ item, status, answer: counting }: ItemState, answer: CheckAnswer): Refusal | undefined {
  if (answer.kind === "override") return wrongOverride(item, answer);
  if (answer.kind === "tick" && status === "ticked") {
    return refuse({
      code: "already-ticked",
      message: `${item.code} is ticked already.`,
      field: item.code,
      ...(counting === undefined ? {} : { data: { byMemberId: counting.byMemberId, at: counting.at.toString() } }),
    });
  }
  if (answer.kind === "untick" && status === "unanswered") {
    return refuse({ code: "not-ticked", message: `${item.code} is not ticked, so there is nothing to take back.`, field: item.code });
  }
  return undefined;
}

function wrongOverride(item: SheetItem, answer: CheckAnswer): Refusal | undefined {
  if (item.level === "remind") {
    return refuse({ code: "nothing-to-override", message: `${item.code} is a reminder and stops nothing.`, field: item.code });
  }
  if (item.forbids !== undefined) {
    return refuse({ code: "check-forbids", message: `${item.code} cannot be overridden: ${item.forbids}`, field: item.code });
  }
  const length = (answer.reason ?? "").trim().length;
  if (!(length >= REASON_MIN_CHARS)) {
    return refuse({
      code: "reason-too-short",
      message: `The reason for overriding ${item.code} has ${length} characters; at least ${REASON_MIN_CHARS} are needed.`,
      field: "reason",
      value: answer.reason,
      allowed: `${REASON_MIN_CHARS} characters or more`,
    });
  }
  return undefined;
}
