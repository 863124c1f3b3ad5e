import { LastKept } from "@/lib/domain/numeric/last-kept";

/**
 * The same function, which keeps its last answers: the question most lately asked stays longest. Questions are told apart
 * by what they say as JSON; what is asked with a question only helps to answer it and must follow from it.
 */
export function keepLast<Question, Answer, Helps extends readonly unknown[] = []>(work: (question: Question, ...helps: Helps) => Answer, count: number): (question: Question, ...helps: Helps) => Answer {
  const kept = new LastKept<string, { readonly answer: Answer }>(count);
  return (question, ...helps) => {
    const key = JSON.stringify(question);
    return (kept.get(key) ?? kept.keep(key, { answer: work(question, ...helps) })).answer;
  };
}
