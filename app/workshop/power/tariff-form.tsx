"use client";

import { useState, useTransition, type FormEvent } from "react";
import { Button } from "@/app/_components/button";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { NumberField } from "@/app/_components/number-field";
import { Row } from "@/app/_components/page";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextField } from "@/app/_components/text-field";
import { fieldId, problemOf } from "@/app/_components/field-id";
import type { Problem } from "@/lib/domain/refusal";
import type { Tariff } from "@/lib/domain/tariff/tariff";
import styles from "../workshop.module.css";
import { tariffAction } from "./actions";
import { BandFields } from "./band-fields";
import { NEW_BAND, typedOf } from "./typed-tariff";

/** The prices of the week, band by band. */
export function TariffForm({ tariff }: { readonly tariff: Tariff | null }) {
  const [typed, setTyped] = useState(() => typedOf(tariff));
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [kept, setKept] = useState(false);
  const [pending, startTransition] = useTransition();
  const [wasSet, setWasSet] = useState(tariff !== null);
  // Only a tariff that was taken away empties the form: keeping a first one has to leave its notice standing.
  if (wasSet !== (tariff !== null)) {
    setWasSet(tariff !== null);
    if (tariff === null) {
      setTyped(typedOf(null));
      setProblems([]);
      setKept(false);
    }
  }
  const { bands } = typed;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    startTransition(async () => {
      const outcome = await tariffAction(typed);
      setProblems(outcome.ok ? [] : outcome.problems);
      setKept(outcome.ok);
    });
  };
  return (
    <form onSubmit={submit} className={styles["form"]} noValidate aria-label="The tariff">
      <FormProblems problems={problems} title="The tariff stays as it was" />
      {kept && <Notice tone="done">The tariff is kept. Costs are shown by it from now on.</Notice>}
      <div className={styles["figures"]}>
        <TextField name="currency" label="Currency" hint="Three letters, such as EUR." maxLength={3} value={typed.currency} onChange={(currency) => setTyped((now) => ({ ...now, currency: currency.toUpperCase() }))} error={problemOf(problems, "currency")} />
        <NumberField name="standingPerDay" label="Standing charge a day" hint="Empty: none. Shown beside costs, not in them." unit={typed.currency} value={typed.standingPerDay} onChange={(standingPerDay) => setTyped((now) => ({ ...now, standingPerDay }))} error={problemOf(problems, "standingPerDay")} />
      </div>
      <div id={fieldId("bands")} className={styles["form"]}>
        {bands.map((band, at) => (
          <BandFields
            key={at}
            at={at}
            band={band}
            currency={typed.currency}
            problems={problems}
            onChange={(change) => setTyped((now) => ({ ...now, bands: now.bands.map((one, i) => (i === at ? { ...one, ...change(one) } : one)) }))}
            onRemove={() => setTyped({ ...typed, bands: bands.filter((_, i) => i !== at) })}
          />
        ))}
      </div>
      <Row>
        <Button onClick={() => setTyped({ ...typed, bands: [...bands, NEW_BAND] })}>Add a band</Button>
        <SubmitButton busy={pending} pendingText="Keeping…">
          Keep this tariff
        </SubmitButton>
      </Row>
    </form>
  );
}
