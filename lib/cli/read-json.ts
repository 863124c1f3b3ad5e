import { readFileSync } from "node:fs";

/** Parsed JSON of a file, or of standard input for "-"; a sentence when there is none. */
export function readJson(name: string | undefined): { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly sentence: string } {
  if (name === undefined) return { ok: false, sentence: "Name a JSON file, or - for standard input." };
  let text: string;
  try {
    text = readFileSync(name === "-" ? 0 : name, "utf8");
  } catch {
    return { ok: false, sentence: `${name} cannot be read.` };
  }
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch (error) {
    return { ok: false, sentence: `${name === "-" ? "Standard input" : name} is not JSON: ${error instanceof Error ? error.message : "it cannot be parsed"}.` };
  }
}

/** Ends with 2 and one line per fault on standard error; nothing is printed on standard output. */
export function endWithFaults(sentences: readonly string[]): void {
  for (const sentence of sentences) process.stderr.write(`${sentence}\n`);
  process.exitCode = 2;
}
