"use client";

import { useActionState, useState } from "react";
import { problemOf } from "@/app/_components/field-id";
import { Checkbox } from "@/app/_components/checkbox";
import { DateField } from "@/app/_components/date-field";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { NumberField } from "@/app/_components/number-field";
import { Select } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { FRESH } from "@/lib/contracts/action-state";
import { EQUIPMENT_FIELDS, type EquipmentField } from "@/lib/contracts/equipment-fields";
import styles from "../workshop.module.css";
import { saveEquipmentAction } from "./actions";

type Kind = keyof typeof EQUIPMENT_FIELDS;
type Values = Readonly<Record<string, string>>;

type Props = {
  readonly kind: Kind;
  /** Left out for a new piece. */
  readonly equipmentId?: string;
  readonly values: Values;
};

const KINDS = [
  { value: "kiln", label: "Kiln" },
  { value: "steamer", label: "Steamer" },
  { value: "trolley", label: "Lifting trolley" },
];

/** Name and limits of a piece of equipment; what was typed stays when it is refused. */
export function EquipmentForm({ kind: given, equipmentId, values }: Props) {
  const [state, action] = useActionState(saveEquipmentAction, FRESH);
  const [kind, setKind] = useState<Kind>(given);
  const [typed, setTyped] = useState<Values>(values);
  const set = (name: string) => (value: string) => setTyped((before) => ({ ...before, [name]: value }));
  const fields: readonly EquipmentField[] = EQUIPMENT_FIELDS[kind];
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="Nothing was kept" />
      {state.said !== undefined && <Notice tone="done">{state.said}</Notice>}
      {equipmentId === undefined ? (
        <Select name="kind" label="Kind" choices={KINDS} value={kind} onChange={(value) => setKind(isKind(value) ? value : "kiln")} />
      ) : (
        <>
          <input type="hidden" name="kind" value={kind} />
          <input type="hidden" name="equipmentId" value={equipmentId} />
        </>
      )}
      <TextField name="name" label="Name" hint="As people call it." required value={typed["name"] ?? ""} onChange={set("name")} error={problemOf(state.problems, "name")} />
      <div className={styles["figures"]}>
        {fields.map((field) => (
          <NumberField
            key={field.path}
            name={field.path}
            label={field.label}
            hint={field.hint}
            unit={field.unit === "" ? undefined : field.unit}
            whole={field.whole}
            value={typed[field.path] ?? ""}
            onChange={set(field.path)}
            error={problemOf(state.problems, field.path)}
          />
        ))}
      </div>
      <DateField
        name="inspectionDue"
        label="Next inspection due"
        hint="Not used after that day until the next date is entered here. Leave it empty when nothing falls due."
        optional
        value={typed["inspectionDue"] ?? ""}
        onChange={set("inspectionDue")}
        error={problemOf(state.problems, "inspectionDue")}
      />
      {kind === "kiln" && (
        <Checkbox
          name="needsInduction"
          label="Needs an induction"
          hint="Only castings of people who were shown this kiln are fired in it; record who was under People."
          checked={typed["needsInduction"] === "on"}
          onChange={(on) => set("needsInduction")(on ? "on" : "")}
        />
      )}
      <SubmitButton>{equipmentId === undefined ? "Add it" : "Keep the changes"}</SubmitButton>
    </form>
  );
}

function isKind(text: string): text is Kind {
  return Object.hasOwn(EQUIPMENT_FIELDS, text);
}
