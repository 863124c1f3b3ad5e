import type { Temporal } from "temporal-polyfill";
import { ok, refuse, refusalOf, type Outcome, type Problem } from "@/lib/domain/refusal";
import type { SheetItem } from "./sheet-for";

/** One entry of a sheet's answers. The list only ever grows: undoing a tick is an entry of its own. */
export type CheckAnswer = {
  readonly code: string;
  readonly kind: "tick" | "untick" | "override";
  readonly byMemberId: string;
  readonly at: Temporal.Instant;
  readonly reason?: string;
};

export type ItemState = {
  readonly item: SheetItem;
  readonly status: "unanswered" | "ticked" | "overridden";
  /** The answer that counts: the last one, unless that took an earlier one back. */
  readonly answer?: CheckAnswer;
};

/** Where each item stands after the answers so far, in the order of the sheet. Later entries win. */
export function stateOf(items: readonly SheetItem[], answers: readonly CheckAnswer[]): readonly ItemState[] {
  return items.map((item) => {
    const last = answers.findLast((answer) => answer.code === item.code);
    if (last === undefined || last.kind === "untick") return { item, status: "unanswered" };
    return { item, status: last.kind === "tick" ? "ticked" : "overridden", answer: last };
  });
}

/** Whether the firing may start: every blocking item ticked or overridden, and nothing forbids it. */
export function mayStart(items: readonly SheetItem[], answers: readonly CheckAnswer[]): Outcome<readonly ItemState[]> {
  return mayPass(items, answers, "block", "start");
}

/** Whether the kiln may be marked opened: every item of level "open" ticked or overridden. */
export function mayOpen(items: readonly SheetItem[], answers: readonly CheckAnswer[]): Outcome<readonly ItemState[]> {
  return mayPass(items, answers, "open", "be opened");
}

/** One problem for every item that stands in the way, its code as the field. Value: where every item stands. */
function mayPass(
  items: readonly SheetItem[],
  answers: readonly CheckAnswer[],
  level: "block" | "open",
  verb: string,
): Outcome<readonly ItemState[]> {
  const states = stateOf(items, answers);
  const concerned = states.filter((state) => state.item.level === level);
  // Nothing to answer is not the same as everything answered.
  if (concerned.length === 0) {
    return refuse({ code: "no-check-sheet", message: `The firing cannot ${verb}: its check sheet has no items for that.` });
  }
  const problems = concerned.flatMap(({ item, status }): Problem[] => {
    if (level === "block" && item.forbids !== undefined) {
      return [{ code: "check-forbids", message: `${item.code}: ${item.forbids}`, field: item.code }];
    }
    if (status !== "unanswered") return [];
    return [{ code: "check-unanswered", message: `${item.code} is not ticked: ${item.text}`, field: item.code }];
  });
  return refusalOf(problems) ?? ok(states);
}
