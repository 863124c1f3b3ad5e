import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { ok, refusalOf, refuse, type Outcome, type Problem } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { castingSchema, type Casting } from "./casting";
import { allowedIn, type CastingField, type CastingForm, labelOf, MESH, OWN_GLASS, sizeFieldsOf, YES } from "./casting-fields";
import { readCastingInput } from "./casting-input";
import { suggestedWall } from "./form-glass-mass";
import { readNumber } from "./form-number";
import { problemsOf } from "./problems";

const MIX_FIELDS = ["mould.plasterSilicaWater.0", "mould.plasterSilicaWater.1", "mould.plasterSilicaWater.2"] as const;

/** Collects, over one form, the numbers and everything that is wrong with it. */
class Reader {
  readonly problems: Problem[] = [];
  constructor(private readonly form: CastingForm) {}

  private labelOf(field: CastingField): string {
    return labelOf(field, this.form["piece.shape"]);
  }

  /** Undefined when left empty or unreadable; the latter is noted. */
  number(field: CastingField): number | undefined {
    const read = readNumber(field, this.form[field], { label: this.labelOf(field), allowed: allowedIn(field) });
    if (read.ok) return read.value;
    this.problems.push(...read.problems);
    return undefined;
  }

  /** Notes an empty field as missing. */
  needed(field: CastingField): number | undefined {
    const value = this.number(field);
    if (value === undefined && this.form[field].trim() === "") this.missing(field);
    return value;
  }

  missing(field: CastingField): void {
    this.problems.push({ code: "missing", field, message: `${this.labelOf(field)} is still missing.` });
  }
}

/**
 * What the calculation needs, out of the form; title and date aside. `mesh` is the body of the mesh it names. Fields left empty that may be are
 * left out. A field that must be filled is a problem of code "missing", apart from real faults, so that
 * a form in the middle of being filled in can be told gently.
 */
export function readCastingForm(form: CastingForm, mesh?: MeshBody): Outcome<CastingInput> {
  const reader = new Reader(form);
  const raw = {
    glass: glassOf(form, reader),
    piece: pieceOf(form, reader),
    cooling: form.cooling,
    mould: form.mould === YES ? mouldOf(form, reader, mesh) : undefined,
    // A feeder leads into a mould: without one its box is out of sight, whatever it holds.
    feeder: form.mould === YES && form.feeder === YES ? feederOf(reader) : undefined,
    stress: form.stress === "careful" ? form.stress : stressOf(reader),
    processC: reader.number("processC"),
  };
  return refusalOf(reader.problems) ?? readCastingInput(raw);
}

/** The whole casting, ready for a command: everything that is wrong is told at once. */
export function readCasting(form: CastingForm, mesh?: MeshBody): Outcome<Casting> {
  const raw = { title: form.title, neededBy: form.neededBy === "" ? null : form.neededBy };
  const named = castingSchema.omit({ input: true }).safeParse(raw);
  const input = readCastingForm(form, mesh);
  if (named.success && input.ok) return ok({ ...named.data, input: input.value });
  const problems = [...(named.success ? [] : problemsOf(named.error, raw)), ...(input.ok ? [] : input.problems)];
  return refusalOf(problems) ?? refuse({ code: "malformed", message: "The form could not be read." });
}

function glassOf(form: CastingForm, reader: Reader): unknown {
  if (form.glass === "") reader.missing("glass");
  if (form.glass !== OWN_GLASS) return form.glass === "" ? undefined : form.glass;
  if (form["glass.name"].trim() === "") reader.missing("glass.name");
  const millionths = reader.number("glass.expansionSolidPerK");
  return {
    ...restOf(form["glass.rest"]),
    name: form["glass.name"],
    densityKgM3: reader.number("glass.densityKgM3"),
    annealingPointC: reader.number("glass.annealingPointC"),
    strainPointC: reader.number("glass.strainPointC"),
    softeningPointC: reader.number("glass.softeningPointC"),
    expansionSolidPerK: millionths === undefined ? undefined : Number(`${millionths}e-6`),
  };
}

/** Properties of an own glass that the form has no field for, carried along so that saving loses none. */
function restOf(json: string): object {
  try {
    const rest: unknown = JSON.parse(json === "" ? "{}" : json);
    return typeof rest === "object" && rest !== null ? rest : {};
  } catch {
    return {};
  }
}

function pieceOf(form: CastingForm, reader: Reader): unknown {
  const shape = form["piece.shape"];
  const wax = { waxKg: reader.number("piece.waxKg"), waxDensityKgM3: reader.number("piece.waxDensityKgM3") };
  if (shape === MESH) {
    if (form["piece.meshId"] === "") reader.missing("piece.meshId");
    return { shape, meshId: form["piece.meshId"] === "" ? undefined : form["piece.meshId"], ...wax };
  }
  return { shape, sizeMm: sizeFieldsOf(shape).map((field) => reader.needed(field)), ...wax, thickestMm: reader.number("piece.thickestMm") };
}

function mouldOf(form: CastingForm, reader: Reader, mesh: MeshBody | undefined): unknown {
  return {
    wallMm: reader.number("mould.wallMm") ?? (form["mould.wallMm"].trim() === "" ? suggestedWall(form, mesh) : undefined),
    plasterSilicaWater: MIX_FIELDS.map((field) => reader.needed(field)),
    driedBeforeLoading: form["mould.driedBeforeLoading"] === YES ? true : undefined,
  };
}

function feederOf(reader: Reader): unknown {
  return {
    diameterMm: reader.needed("feeder.diameterMm"),
    lengthMm: reader.needed("feeder.lengthMm"),
    waxKg: reader.number("feeder.waxKg"),
  };
}

function stressOf(reader: Reader): unknown {
  return { permanentMPa: reader.needed("stress.permanentMPa"), passingMPa: reader.needed("stress.passingMPa") };
}
