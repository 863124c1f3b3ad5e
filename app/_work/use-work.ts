import { useEffect, useId, useState } from "react";
import { Desk, type Urgency } from "./desk";
import { runWork } from "./run-work";
import type { WorkAnswer, WorkName, WorkQuestion } from "./work";

const desk = new Desk();

export type Worked<N extends WorkName> = {
  /** The last answer there was, and what was asked for it. */
  readonly last: { readonly question: WorkQuestion<N>; readonly answer: WorkAnswer<N> } | null;
  /** There is a question that stands unanswered. */
  readonly busy: boolean;
  /** The calculation itself broke on the question that stands: a fault of ours. */
  readonly failed: boolean;
};

/** The answer to a question, worked out beside the page; null asks nothing. A question is a new one when it is another object. */
export function useWork<N extends WorkName>(name: N, question: WorkQuestion<N> | null, urgency: Urgency): Worked<N> {
  const slot = useId();
  const [last, setLast] = useState<Worked<N>["last"]>(null);
  const [failedOn, setFailedOn] = useState<WorkQuestion<N> | null>(null);
  useEffect(() => {
    if (question === null) return undefined;
    let wanted = true;
    const start = async () => {
      try {
        const answer = await runWork(name, question);
        if (wanted) setLast({ question, answer });
      } catch {
        if (wanted) setFailedOn(question);
      }
    };
    desk.put({ slot, urgency, start });
    return () => {
      wanted = false;
      desk.drop(slot);
    };
  }, [name, question, slot, urgency]);
  const failed = question !== null && failedOn === question;
  return { last, busy: question !== null && last?.question !== question && !failed, failed };
}
