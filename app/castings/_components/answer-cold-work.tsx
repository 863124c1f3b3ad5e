"use client";

import { useState } from "react";
import { FieldGrid } from "@/app/_components/field-group";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Panel } from "@/app/_components/panel";
import { Select } from "@/app/_components/select";
import { Why } from "@/app/_components/why";
import { readColdWorkChoice } from "@/lib/contracts/cold-work-choice";
import { paths } from "@/lib/contracts/paths";
import { coldWorkCautions } from "@/lib/domain/coldworking/cautions";
import { coldWorkOf } from "@/lib/domain/firing/casting-cold-work";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { mayHoldLead } from "@/lib/domain/glass/may-hold-lead";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { ColdWorkTable } from "./cold-work-table";
import { coldWorkLead, HOURS_WORDS, RULE_WORDS, SURFACE_CHOICES, WORKED_CHOICES } from "./cold-work-words";
import styles from "./answer.module.css";

type AnswerColdWorkProps = { readonly input: CastingInput; readonly mesh: MeshBody | undefined; readonly castingId?: string | undefined };

/** From the mould's surface to the polish: which grits, what each takes off, and about how long. */
export function AnswerColdWork({ input, mesh, castingId }: AnswerColdWorkProps) {
  const [choice, setChoice] = useState(() => readColdWorkChoice({}));
  const plan = coldWorkOf(input, choice.surface, choice.worked, mesh);
  if (!plan.ok) return <Panel title="Cold work"><Notice>{plan.problems[0].message}</Notice></Panel>;
  const { works } = plan.value;
  return (
    <Panel title="Cold work" lead={coldWorkLead(plan.value)} actions={castingId !== undefined && <LinkButton href={paths.coldWork(castingId, choice)}>Cold-work sheet</LinkButton>}>
      <div className={styles["stack"]}>
        <FieldGrid>
          <Select name="coldWork.surface" label="Out of the mould" choices={SURFACE_CHOICES} value={choice.surface} onChange={(surface) => setChoice((now) => readColdWorkChoice({ ...now, surface }))} />
          <Select name="coldWork.worked" label="Worked" choices={WORKED_CHOICES} value={choice.worked} onChange={(worked) => setChoice((now) => readColdWorkChoice({ ...now, worked }))} />
        </FieldGrid>
        {works.map((work) => (
          <ColdWorkTable key={work.work} work={work} />
        ))}
        <ul className={styles["cautions"]}>
          {coldWorkCautions(mayHoldLead(input.glass)).map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
        <Why ask="Why these grits and hours?">
          <p>{RULE_WORDS}</p>
          <p>{HOURS_WORDS}</p>
        </Why>
      </div>
    </Panel>
  );
}
