import { FieldGrid, FieldGroup } from "@/app/_components/field-group";
import { NumberField } from "@/app/_components/number-field";
import { RadioGroup } from "@/app/_components/radio-group";
import { isFormShape, MESH, sizeFieldsOf, type FormShape } from "@/lib/contracts/casting-fields";
import { SIZE_WORDS } from "@/lib/domain/shape/solid";
import { fieldProps, type FieldSet } from "./field-set";
import { MeshField } from "./mesh-field";
import { PieceDrawing } from "./piece-drawing";
import styles from "./editor.module.css";

const SHAPES: readonly { readonly value: FormShape | typeof MESH; readonly label: string }[] = [
  { value: "brick", label: "Block or figure" },
  { value: "cylinder", label: "Cylinder" },
  { value: "ball", label: "Ball" },
  { value: "slab", label: "Slab" },
  { value: MESH, label: "Scanned or modelled mesh" },
];

const SHAPE_HINT: Readonly<Record<FormShape, string>> = {
  brick: "For a figure, the box it would just fit into. Then weigh the wax and give the thickest part.",
  cylinder: "Anything round and upright: vessels, columns, heads.",
  ball: "Round in every direction.",
  slab: "A plate much wider than thick. Its side follows from the wax, or is taken as six times the thickness.",
};

const MESH_HINT = "A file from a scan or a modelling program. Volume, surface and thickness are worked out from it.";

export function PieceFields({ fields }: { readonly fields: FieldSet }) {
  const shape = fields.form["piece.shape"];
  return (
    <FieldGroup title="Shape and size">
      <div className={styles["stack"]}>
        <RadioGroup {...fieldProps(fields, "piece.shape")} label="Shape" choices={SHAPES} hint={isFormShape(shape) ? SHAPE_HINT[shape] : MESH_HINT} />
        {shape === MESH ? <MeshField fields={fields} /> : <SizedPiece fields={fields} />}
        <FieldGrid>
          <NumberField {...fieldProps(fields, "piece.waxKg")} label="Wax weight" unit="kg" optional hint="Without the feeder. The surest way to the mass of glass; else it is taken from the shape." />
          <NumberField {...fieldProps(fields, "piece.waxDensityKgM3")} label="Density of the wax" unit="kg/m³" placeholder="930" optional hint="930 when left empty. Filled waxes are heavier: measure." />
          {shape !== MESH && <NumberField {...fieldProps(fields, "piece.thickestMm")} label="Thickest part" unit="mm" optional hint="Through solid glass. It decides how slowly the piece must cool." />}
        </FieldGrid>
      </div>
    </FieldGroup>
  );
}

function SizedPiece({ fields }: { readonly fields: FieldSet }) {
  const shape = fields.form["piece.shape"];
  const words: readonly string[] = isFormShape(shape) ? SIZE_WORDS[shape] : [];
  return (
    <div className={styles["beside"]}>
      <div className={styles["sizes"]}>
        {sizeFieldsOf(shape).map((field, i) => (
          <NumberField key={field} {...fieldProps(fields, field)} label={capital(words[i] ?? "Size")} unit="mm" required />
        ))}
      </div>
      <PieceDrawing form={fields.form} />
    </div>
  );
}

function capital(word: string): string {
  return `${word.charAt(0).toUpperCase()}${word.slice(1)}`;
}
