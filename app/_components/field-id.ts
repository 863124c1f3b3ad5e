import type { Problem } from "@/lib/domain/refusal";

/** The element id of a field, from the dotted path that problems also use, e.g. "mould.wallMm". */
export function fieldId(name: string): string {
  return `field-${name.replaceAll(/[^A-Za-z0-9_-]+/g, "-")}`;
}

/** The sentence to stand beside one field, if anything is wrong with it. */
export function problemOf(problems: readonly Problem[] | undefined, name: string): string | undefined {
  return problems?.find((problem) => problem.field === name)?.message;
}
