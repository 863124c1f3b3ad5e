import { z } from "zod";
import type { Problem } from "@/lib/domain/refusal";

type Issue = z.core.$ZodIssue;

/** What a person must not see again on a screen or in a log. */
const SECRET = /password|secret|token/i;

const TYPE_WORDS: Readonly<Record<string, string>> = {
  number: "a number",
  int: "a whole number",
  string: "text",
  boolean: "true or false",
  array: "a list",
  tuple: "a list",
  object: "a group of fields",
  date: "a date",
  nan: "not a number",
};

/**
 * Turns what zod found into problems for a person: each names the field by its dotted path, the value
 * that was given and what would be allowed. All faults are returned, in the order of the input.
 *
 * `input` is the value that was parsed; it is read only to quote the refused values. Values of fields
 * whose name speaks of a password, secret or token are never quoted.
 *
 * @example problemsOf(parsed.error, body)[0]?.message
 *   // "mould.wallMm is \"forty\"; it must be a number."
 */
export function problemsOf(error: z.ZodError, input: unknown): Problem[] {
  return error.issues.flatMap((issue) => problemsOfIssue(issue, input, []));
}

function problemsOfIssue(issue: Issue, input: unknown, before: readonly PropertyKey[]): Problem[] {
  const path = [...before, ...issue.path];
  if (issue.code === "unrecognized_keys") return issue.keys.map((key) => unknownKey([...path, key], input));
  if (issue.code === "invalid_union") {
    const branch = nearestBranch(issue);
    if (branch) return branch.flatMap((inner) => problemsOfIssue(inner, input, path));
  }
  return [problemOf(issue, path, input)];
}

function unknownKey(path: readonly PropertyKey[], input: unknown): Problem {
  const field = fieldName(path);
  const parent = fieldName(path.slice(0, -1));
  return {
    code: "unknown-key",
    message: `${field} is not a known field${parent === "" ? "" : ` of ${parent}`}; take it out or correct its name.`,
    field,
    ...quoted(path, input),
  };
}

/**
 * Of the alternatives of a union, the one the person probably meant: the only one that got past the
 * check of the value's own type. Several or none left: the union is reported as one problem.
 */
function nearestBranch(issue: Extract<Issue, { code: "invalid_union" }>): readonly Issue[] | undefined {
  const deeper = issue.errors.filter((branch) => branch.every((inner) => inner.path.length > 0 || inner.code === "unrecognized_keys"));
  return deeper.length === 1 ? deeper[0] : undefined;
}

function problemOf(issue: Issue, path: readonly PropertyKey[], input: unknown): Problem {
  const field = fieldName(path);
  const value = valueAt(path, input);
  const allowed = allowedBy(issue);
  const own = ownMessage(issue, value);
  const subject = field === "" ? "The input" : field;
  const missing = value === undefined && issue.code !== "custom";
  const code = missing ? "missing" : codeOf(issue);
  const given = quoted(path, input);
  const shown = "value" in given ? ` is ${inWords(given.value)}` : " cannot be taken as it is";
  const said = missing ? `${subject} is missing; it must be ${allowed}.` : `${subject}${shown}; it must be ${allowed}.`;
  return { code, message: own ?? said, ...(field === "" ? {} : { field }), ...given, ...(own && !missing ? {} : { allowed }) };
}

/** A message written by the author of the schema, as against zod's own wording. */
function ownMessage(issue: Issue, value: unknown): string | undefined {
  if (issue.code === "custom") return issue.message;
  const standard = z.locales.en().localeError({ ...issue, input: value, message: undefined } as z.core.$ZodRawIssue);
  const text = typeof standard === "string" ? standard : standard?.message;
  return text === issue.message ? undefined : issue.message;
}

function codeOf(issue: Issue): string {
  switch (issue.code) {
    case "too_small":
    case "too_big":
    case "not_multiple_of":
      return "out-of-range";
    case "invalid_type":
      return "wrong-type";
    case "invalid_value":
    case "invalid_union":
      return "not-one-of";
    case "custom":
      return typeof issue.params?.["code"] === "string" ? issue.params["code"] : "not-allowed";
    default:
      return "not-allowed";
  }
}

function allowedBy(issue: Issue): string {
  switch (issue.code) {
    case "invalid_type":
      return TYPE_WORDS[issue.expected] ?? issue.expected;
    case "too_small":
      return bound(issue.origin, Number(issue.minimum), issue.inclusive === false ? "more than" : "at least");
    case "too_big":
      return bound(issue.origin, Number(issue.maximum), issue.inclusive === false ? "less than" : "at most");
    case "invalid_value":
      return issue.values.length === 1 ? inWords(issue.values[0]) : `one of ${issue.values.map(inWords).join(", ")}`;
    case "invalid_union":
      return [...new Set(issue.errors.flatMap((branch) => branch.slice(0, 1).map(allowedBy)))].join(" or ") || "one of the known forms";
    case "not_multiple_of":
      return `a multiple of ${issue.divisor}`;
    case "invalid_format":
      return FORMAT_WORDS[issue.format] ?? "in the expected form";
    default:
      return "as the form describes";
  }
}

const FORMAT_WORDS: Readonly<Record<string, string>> = {
  email: "an e-mail address",
  uuid: "an identifier of this workshop",
  date: "a date like 2027-03-28",
  datetime: "a date and time",
  time: "a time like 08:30",
  url: "a web address",
};

function bound(origin: string, limit: number, word: string): string {
  if (origin === "string") return `${word} ${limit} ${limit === 1 ? "character" : "characters"} long`;
  if (origin === "array" || origin === "set") return `a list of ${word} ${limit}`;
  return `${word} ${limit}`;
}

function fieldName(path: readonly PropertyKey[]): string {
  return path.map(String).join(".");
}

function valueAt(path: readonly PropertyKey[], input: unknown): unknown {
  let here: unknown = input;
  for (const key of path) {
    if (typeof here !== "object" || here === null) return undefined;
    here = Reflect.get(here, key);
  }
  return here;
}

function quoted(path: readonly PropertyKey[], input: unknown): { value?: unknown } {
  if (path.some((key) => SECRET.test(String(key)))) return {};
  const value = valueAt(path, input);
  return value === undefined ? {} : { value };
}

function inWords(value: unknown): string {
  if (typeof value === "number" || typeof value === "bigint") return String(value);
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
