import { describe, expect, it } from "vitest";
import { equipmentSchema } from "@/lib/contracts/equipment";
import { EQUIPMENT_FIELDS } from "@/lib/contracts/equipment-fields";
import { equipmentFromForm } from "@/lib/contracts/equipment-form";
import { problemsOf } from "@/lib/contracts/problems";

type Kind = keyof typeof EQUIPMENT_FIELDS;

/** A filled form: every figure in the middle of its range, rounded down. */
function filled(kind: Kind, changed: Readonly<Record<string, string>> = {}): (name: string) => string {
  const figures = EQUIPMENT_FIELDS[kind].map((field) => [field.path, String(Math.floor((field.min + field.max) / 2))]);
  const fields: Readonly<Record<string, string>> = { kind, name: "Attic one", ...Object.fromEntries(figures), ...changed };
  return (name) => fields[name] ?? "";
}

function messages(kind: Kind, changed: Readonly<Record<string, string>>): string[] {
  const raw = equipmentFromForm(filled(kind, changed));
  if (!raw.ok) return raw.problems.map((problem) => problem.message);
  const parsed = equipmentSchema.safeParse(raw.value);
  return parsed.success ? [] : problemsOf(parsed.error, raw.value).map((problem) => problem.message);
}

describe.each(["kiln", "steamer", "trolley"] as const)("the form of a %s", (kind) => {
  it("asks for every figure that the description needs", () => {
    expect(messages(kind, {})).toEqual([]);
  });

  it.each(EQUIPMENT_FIELDS[kind].map((field) => [field.label, field] as const))("takes %s at both ends of its range and refuses it beyond", (_label, field) => {
    expect(messages(kind, { [field.path]: String(field.min) })).toEqual([]);
    expect(messages(kind, { [field.path]: String(field.max) })).toEqual([]);
    const refused = [String(field.min - 1), String(field.max + 1)].map((typed) => messages(kind, { [field.path]: typed }));
    expect(refused).toEqual([[expect.stringContaining(`${field.min} to ${field.max}`)], [expect.stringContaining(`${field.label} is ${field.max + 1};`)]]);
  });

  it("says which figure is missing or no number", () => {
    const [first] = EQUIPMENT_FIELDS[kind];
    if (first === undefined) throw new Error("no fields");
    expect(messages(kind, { [first.path]: "" })).toEqual([expect.stringMatching(new RegExp(`^${first.label} is missing`))]);
    expect(messages(kind, { [first.path]: "wide" })).toEqual([expect.stringContaining("“wide”")]);
  });

  it("needs a name", () => {
    expect(messages(kind, { name: "  " })).toEqual(["Give it a name, as people call it."]);
  });
});

it("reads a decimal comma and refuses half a controller segment", () => {
  expect(messages("kiln", { "limits.powerKw": "7,5" })).toEqual([]);
  expect(messages("kiln", { "limits.controllerSegments": "8.5" })).toEqual([expect.stringContaining("a whole number, 4 to 200")]);
});

it("refuses a kind there is none of", () => {
  const raw = equipmentFromForm((name) => (name === "kind" ? "crucible" : "x"));
  expect(raw.ok && equipmentSchema.safeParse(raw.value).success).toBe(false);
});
