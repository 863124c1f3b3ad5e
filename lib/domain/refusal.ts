/**
 * An expected "no", as a value. Exceptions are kept for bugs; whatever a person or another program
 * can cause comes back as an {@link Outcome} and travels unchanged up to the form, the API or the
 * command line.
 */
export type Problem = {
  /** Stable, kebab-case, for programs: "out-of-range", "kiln-taken", "not-allowed" … */
  readonly code: string;
  /** One sentence for a person. Names the field, the value and what would be allowed. */
  readonly message: string;
  /** Dotted path of the input that is at fault, e.g. "mould.wallMm". */
  readonly field?: string;
  /** The value that was refused, as it was given. */
  readonly value?: unknown;
  /** What would be allowed, in words, e.g. "15 to 150 mm". */
  readonly allowed?: string;
  /** Anything a screen needs to help further, e.g. who holds the kiln and until when. */
  readonly data?: Readonly<Record<string, unknown>>;
};

export type Refusal = { readonly ok: false; readonly problems: readonly [Problem, ...Problem[]] };
export type Outcome<T> = { readonly ok: true; readonly value: T } | Refusal;

export function ok<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

export function refuse(...problems: readonly [Problem, ...Problem[]]): Refusal {
  return { ok: false, problems };
}

/** Turns collected problems into a refusal, or nothing when there are none. */
export function refusalOf(problems: readonly Problem[]): Refusal | undefined {
  const [first, ...rest] = problems;
  return first === undefined ? undefined : { ok: false, problems: [first, ...rest] };
}
