import { type CastingField, type CastingForm, MESH } from "@/lib/contracts/casting-fields";
import type { ReadMesh } from "@/lib/contracts/mesh";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";

/** What a part of the form needs: what was typed, how to change it, and what is wrong with it. */
export type FieldSet = {
  readonly form: CastingForm;
  readonly set: (field: CastingField, value: string) => void;
  /** The mesh that was read last; the piece is given by it where the form names it. */
  readonly mesh: ReadMesh | null;
  readonly takeMesh: (mesh: ReadMesh | null) => void;
  readonly errorOf: (field: CastingField) => string | undefined;
};

/** Name, value, change and error of one field, for the field components. */
export function fieldProps({ form, set, errorOf }: FieldSet, name: CastingField) {
  return { name, value: form[name], onChange: (value: string) => set(name, value), error: errorOf(name) };
}

/** The body of the mesh that the form names, if its shape is one and that mesh is at hand. */
export function meshIn(form: CastingForm, mesh: ReadMesh | null): MeshBody | undefined {
  return form["piece.shape"] === MESH && mesh !== null && form["piece.meshId"] === mesh.meshId ? mesh.body : undefined;
}
