import { useState } from "react";
import { fieldId } from "@/app/_components/field-id";
import { FieldFrame } from "@/app/_components/field-frame";
import { FormProblems } from "@/app/_components/form-problems";
import { RadioGroup } from "@/app/_components/radio-group";
import { Select } from "@/app/_components/select";
import { MOST_MESH_MB } from "@/lib/contracts/mesh";
import { MESH_UNITS, MESH_UPS, type MeshUnit, type MeshUp } from "@/lib/domain/shape/mesh/turned";
import type { FieldSet } from "./field-set";
import { MeshFacts } from "./mesh-facts";
import { stepText, UNIT_WORDS, UP_WORDS } from "./mesh-words";
import { useMeshUpload, type MeshUpload } from "./use-mesh-upload";
import field from "@/app/_components/field.module.css";
import styles from "./mesh.module.css";

const AGAIN = { code: "file-needed", message: "To read it in another unit or turned another way, choose the file again: only what was worked out from it is kept." };

/** Asks for a mesh's unit, its way up and its file; follows its reading; and shows what was read. */
export function MeshField({ fields }: { readonly fields: FieldSet }) {
  const { mesh, takeMesh, errorOf } = fields;
  const [file, setFile] = useState<File | null>(null);
  const [unit, setUnit] = useState<MeshUnit | "">(mesh?.unit ?? "");
  const [up, setUp] = useState<MeshUp>(mesh?.up ?? "+z");
  const { upload, send, refuse } = useMeshUpload(takeMesh);
  /** Read as soon as file and unit are known, and anew when one of them changes. */
  const read = (next: { readonly file?: File | null; readonly unit?: MeshUnit; readonly up?: MeshUp }): void => {
    const [nowFile, nowUnit, nowUp] = [next.file ?? file, next.unit ?? unit, next.up ?? up];
    if (nowFile !== null && nowUnit !== "") send(nowFile, nowUnit, nowUp);
    else if (nowFile === null && mesh !== null) refuse(AGAIN);
  };
  const chooseUnit = (value: string): void => {
    const chosen = MESH_UNITS.find((one) => one === value);
    if (chosen === undefined) return;
    setUnit(chosen);
    read({ unit: chosen });
  };
  const chooseUp = (value: string): void => {
    const chosen = MESH_UPS.find((one) => one === value);
    if (chosen === undefined) return;
    setUp(chosen);
    read({ up: chosen });
  };
  const chooseFile = (chosen: File | undefined): void => {
    if (chosen === undefined) return;
    setFile(chosen);
    read({ file: chosen });
  };
  const waitsForUnit = file !== null && unit === "";
  return (
    <div className={styles["mesh"]}>
      <RadioGroup
        name="mesh.unit" label="Its numbers are" value={unit} onChange={chooseUnit} required
        choices={MESH_UNITS.map((value) => ({ value, label: UNIT_WORDS[value] }))}
        hint="The file does not say; the program that wrote it does."
        error={waitsForUnit ? "Say in which unit it was drawn; then it is read." : undefined}
      />
      <Select name="mesh.up" label="Which way is up" value={up} onChange={chooseUp} choices={MESH_UPS.map((value) => ({ value, label: UP_WORDS[value] }))} hint="As it will stand in the kiln, open face on top." />
      <FieldFrame name="piece.meshId" label="Mesh file" required hint={`STL or OBJ, up to ${MOST_MESH_MB} MB: one closed body, without feeder.`} error={errorOf("piece.meshId")}>
        <input
          type="file" id={fieldId("piece.meshId")} accept=".stl,.obj" className={styles["file"]}
          aria-describedby={`${fieldId("piece.meshId")}-hint`}
          onChange={(event) => chooseFile(event.currentTarget.files?.[0])}
        />
      </FieldFrame>
      <UploadState upload={upload} fileName={file?.name ?? ""} />
      {mesh !== null && <MeshFacts mesh={mesh} cooling={fields.form.cooling} stale={upload.state !== "idle"} />}
    </div>
  );
}

function UploadState({ upload, fileName }: { readonly upload: MeshUpload; readonly fileName: string }) {
  if (upload.state === "refused") return <FormProblems problems={upload.problems.map(({ field: _place, ...problem }) => problem)} title="The mesh cannot be used as it is" />;
  const text = upload.state === "idle" ? "" : upload.state === "sending" ? `Sending ${fileName}, ${upload.percent} %` : stepText(upload);
  return (
    <div role="status" className={styles["state"]}>
      {upload.state !== "idle" && (
        <>
          <span>{text}</span>
          <progress className={styles["progress"]} aria-label={`Reading ${fileName}`} max={100} {...(shareDone(upload) === undefined ? {} : { value: shareDone(upload) })} />
          <span className={field["hint"]}>You can go on filling in the form meanwhile.</span>
        </>
      )}
    </div>
  );
}

function shareDone(upload: MeshUpload): number | undefined {
  return upload.state === "sending" || upload.state === "solving" ? upload.percent : undefined;
}
