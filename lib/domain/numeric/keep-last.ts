/** The same function, which keeps its last answers: the question most lately asked stays longest. Questions are told apart by what they say as JSON. */
export function keepLast<Question, Answer>(work: (question: Question) => Answer, count: number): (question: Question) => Answer {
  const kept = new Map<string, { readonly answer: Answer }>();
  return (question) => {
    const key = JSON.stringify(question);
    const known = kept.get(key) ?? { answer: work(question) };
    kept.delete(key);
    kept.set(key, known);
    const oldest = kept.keys().next();
    if (kept.size > count && oldest.done !== true) kept.delete(oldest.value);
    return known.answer;
  };
}
