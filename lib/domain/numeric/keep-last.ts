/**
 * The same function, which keeps its last answers: the question most lately asked stays longest. Questions are told apart
 * by what they say as JSON; what is asked with a question only helps to answer it and must follow from it.
 */
export function keepLast<Question, Answer, Helps extends readonly unknown[] = []>(work: (question: Question, ...helps: Helps) => Answer, count: number): (question: Question, ...helps: Helps) => Answer {
  const kept = new Map<string, { readonly answer: Answer }>();
  return (question, ...helps) => {
    const key = JSON.stringify(question);
    const known = kept.get(key) ?? { answer: work(question, ...helps) };
    kept.delete(key);
    kept.set(key, known);
    const oldest = kept.keys().next();
    if (kept.size > count && oldest.done !== true) kept.delete(oldest.value);
    return known.answer;
  };
}
