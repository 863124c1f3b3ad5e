"use client";

import { useState } from "react";
import { Temporal } from "temporal-polyfill";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Empty } from "@/app/_components/empty";
import { FormProblems } from "@/app/_components/form-problems";
import { Notice } from "@/app/_components/notice";
import { Panel } from "@/app/_components/panel";
import { SubmitButton } from "@/app/_components/submit-button";
import type { FeedStanding, MadeFeed } from "@/lib/contracts/feeds";
import type { Outcome, Problem } from "@/lib/domain/refusal";
import { showTimeWithYear } from "@/lib/domain/time/show-time";
import styles from "./feed-panel.module.css";
import { MadeAddress } from "./made-address";

type FeedPanelProps = {
  readonly title: string;
  readonly lead: string;
  /** Who could read what, and so whom to give the address. */
  readonly secrecy: string;
  readonly standing: FeedStanding | null;
  readonly timeZone: string;
  /** Posted with every button. */
  readonly values?: Readonly<Record<string, string>> | undefined;
  /** False for a retired kiln: its address can still be revoked. */
  readonly mayMake?: boolean | undefined;
  readonly make: (form: FormData) => Promise<Outcome<MadeFeed>>;
  readonly revoke: (form: FormData) => Promise<Outcome<unknown>>;
};

/** The address under which calendar programs read something: made, shown once, made anew, revoked. */
export function FeedPanel({ title, lead, secrecy, standing, timeZone, values = {}, mayMake = true, make, revoke }: FeedPanelProps) {
  const [made, setMade] = useState<MadeFeed | "revoked">();
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const makeOne = async (form: FormData) => {
    const outcome = await make(form);
    if (outcome.ok) setMade(outcome.value);
    return outcome;
  };
  const makeFirst = async (form: FormData) => {
    const outcome = await makeOne(form);
    setProblems(outcome.ok ? [] : outcome.problems);
  };
  const end = async (form: FormData) => {
    const outcome = await revoke(form);
    if (outcome.ok) setMade("revoked");
    return outcome;
  };
  return (
    <Panel title={title} lead={lead}>
      <div className={styles["feed"]}>
        <FormProblems problems={problems} title="No address was made" />
        {made === "revoked" && <Notice tone="done">The address opens nothing any more. Remove the calendar from the programs that read it.</Notice>}
        {made !== undefined && made !== "revoked" && <MadeAddress key={made.address} made={made} />}
        {standing === null ? (
          <Empty title="No address yet" action={mayMake && <MakeForm values={values} action={makeFirst} />}>
            {secrecy}
          </Empty>
        ) : (
          <>
            <p>{standingText(standing, timeZone)}</p>
            <div className={styles["buttons"]}>
              {mayMake && (
                <ConfirmWithReason trigger="Make a new address" title="Make a new address?" confirmText="Make a new address" reason="none" values={values} action={makeOne}>
                  <p>The old address opens nothing from then on. Calendar programs that read it keep what they read last, or say that nothing is there: remove it from them and give them the new one.</p>
                </ConfirmWithReason>
              )}
              <ConfirmWithReason trigger="Revoke it" look="trouble" title="Revoke the address?" confirmText="Revoke it" reason="none" values={values} action={end}>
                <p>It opens nothing from then on. Calendar programs keep what they read last, some of them for good: remove the calendar there as well.</p>
              </ConfirmWithReason>
            </div>
          </>
        )}
      </div>
    </Panel>
  );
}

function MakeForm({ values, action }: { readonly values: Readonly<Record<string, string>>; readonly action: (form: FormData) => Promise<void> }) {
  return (
    <form action={action}>
      {Object.entries(values).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <SubmitButton look="plain" pendingText="Making it…">
        Make an address
      </SubmitButton>
    </form>
  );
}

function standingText({ madeMs, madeBy, lastReadMs }: FeedStanding, timeZone: string): string {
  const at = (ms: number) => showTimeWithYear(Temporal.Instant.fromEpochMilliseconds(ms), timeZone);
  const read = lastReadMs === null ? "No calendar program has read it yet." : `A calendar program read it in the hour from ${at(lastReadMs)}.`;
  return `There is an address, made ${at(madeMs)} by ${madeBy}. ${read}`;
}
