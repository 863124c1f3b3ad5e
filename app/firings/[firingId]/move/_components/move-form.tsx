"use client";

import { useActionState, useState } from "react";
import { Temporal } from "temporal-polyfill";
import { problemOf } from "@/app/_components/field-id";
import { FormProblems } from "@/app/_components/form-problems";
import { RadioInput } from "@/app/_components/radio-input";
import { SubmitButton } from "@/app/_components/submit-button";
import { TextArea } from "@/app/_components/text-area";
import { FRESH } from "@/lib/contracts/action-state";
import { runTimeText } from "@/lib/contracts/run-time";
import type { Problem } from "@/lib/domain/refusal";
import { showInterval, showTime } from "@/lib/domain/time/show-time";
import { moveAction } from "../actions";
import styles from "../move.module.css";

type Run = { readonly kilnId: string; readonly kilnFrom: string; readonly kilnTo: string; readonly readyAt: string; readonly steamFrom: string | null; readonly daysLate: number };
type Screen = {
  readonly firingId: string;
  readonly version: number;
  readonly owner: string;
  readonly mine: boolean;
  readonly shared: boolean;
  readonly neededBy: string | null;
  readonly requestKey: string;
  readonly problems: readonly Problem[];
  readonly offers: { readonly kilns: readonly { readonly kilnId: string; readonly kilnName: string; readonly runs: readonly Run[]; readonly whyNot: string | null }[] };
};

/** Choose one of the times that can stand, give the reason, and move all of the run. */
export function MoveForm({ screen, timeZone }: { readonly screen: Screen; readonly timeZone: string }) {
  const [state, action] = useActionState(moveAction, FRESH);
  const [reason, setReason] = useState("");
  const runs = screen.offers.kilns.flatMap((kiln) => kiln.runs.map((run) => ({ ...run, kilnName: kiln.kilnName, key: runTimeText(run) })));
  const [chosen, setChosen] = useState(runs[0]?.key);
  const owed = !screen.mine || screen.shared;
  return (
    <form action={action} className={styles["form"]}>
      <FormProblems problems={state.problems} title="Nothing was moved" />
      <input type="hidden" name="firingId" value={screen.firingId} />
      <input type="hidden" name="version" value={screen.version} />
      <input type="hidden" name="requestKey" value={screen.requestKey} />
      <fieldset className={styles["times"]}>
        <legend>Times that can stand</legend>
        {runs.map((one) => (
          <label key={one.key} className={styles["time"]}>
            <RadioInput name="time" required value={one.key} checked={one.key === chosen} onChoose={() => setChosen(one.key)} />
            <span>
              <strong>{one.kilnName}</strong>, {showInterval({ start: Temporal.Instant.from(one.kilnFrom), end: Temporal.Instant.from(one.kilnTo) }, timeZone)}
              <span className={styles["soft"]}>
                Ready {showTime(Temporal.Instant.from(one.readyAt), timeZone)}
                {lateText(one.daysLate, screen.neededBy)}
              </span>
            </span>
          </label>
        ))}
      </fieldset>
      <NotOffered kilns={screen.offers.kilns} />
      <TextArea
        name="reason"
        label={owed ? "Reason" : "Reason (if you like)"}
        hint={owed ? `${screen.shared ? "Everybody who shares it" : screen.owner} is told, with this reason. At least 10 characters.` : undefined}
        required={owed}
        rows={2}
        maxLength={500}
        value={reason}
        onChange={setReason}
        error={problemOf(state.problems, "reason")}
      />
      <SubmitButton pendingText="Moving…">Move the whole run</SubmitButton>
    </form>
  );
}

function NotOffered({ kilns }: { readonly kilns: Screen["offers"]["kilns"] }) {
  const others = kilns.filter((kiln) => kiln.runs.length === 0);
  if (others.length === 0) return null;
  return (
    <ul className={styles["soft"]}>
      {others.map((kiln) => (
        <li key={kiln.kilnId}>
          {kiln.whyNot?.includes(kiln.kilnName) === true ? kiln.whyNot : `${kiln.kilnName}: ${kiln.whyNot ?? ""}`}
        </li>
      ))}
    </ul>
  );
}

function lateText(daysLate: number, neededBy: string | null): string {
  if (neededBy === null) return "";
  if (daysLate === 0) return ", in time";
  return `, ${daysLate === 1 ? "1 day" : `${daysLate} days`} after it is needed`;
}
