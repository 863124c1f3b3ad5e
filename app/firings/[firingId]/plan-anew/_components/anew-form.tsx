"use client";

import { useActionState, useState } from "react";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { LinkButton } from "@/app/_components/link-button";
import { Row } from "@/app/_components/page";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextArea } from "@/app/_components/text-area";
import { FRESH } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { planAnewAction } from "../actions";
import styles from "../plan-anew.module.css";

type AnewFormProps = { readonly firingId: string; readonly version: number; readonly requestKey: string; readonly owner: string; readonly mine: boolean };

/** Takes the new plan for the run, or leaves everything as it is. */
export function AnewForm({ firingId, version, requestKey, owner, mine }: AnewFormProps) {
  const [state, send] = useActionState(planAnewAction, FRESH);
  const [reason, setReason] = useState("");
  return (
    <form action={send} className={styles["form"]}>
      <FormProblems problems={state.problems} title="Nothing was changed" />
      <input type="hidden" name="firingId" value={firingId} />
      <input type="hidden" name="version" value={version} />
      <input type="hidden" name="requestKey" value={requestKey} />
      <TextArea
        name="reason"
        label={mine ? "Reason (if you like)" : "Reason"}
        hint={mine ? undefined : `${owner} is told, with this reason. At least 10 characters.`}
        value={reason}
        onChange={setReason}
        error={problemOf(state.problems, "reason")}
      />
      <Row>
        <SubmitButton>Take the new plan</SubmitButton>
        <LinkButton href={paths.firing(firingId)}>Leave it as booked</LinkButton>
      </Row>
    </form>
  );
}
