import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { Panel } from "@/app/_components/panel";
import { showTime } from "@/lib/domain/time/show-time";
import type { SettlementPerson, SettlementScreen } from "@/lib/server/queries/settlement";
import { AnswerForm } from "./answer-form";
import styles from "../settlement.module.css";

type Props = { readonly screen: SettlementScreen; readonly timeZone: string };

/** Who was told and what they say; and the form for one's own answer. */
export function ToldPanel({ screen, timeZone }: Props) {
  const { settlementId, told, settles } = screen;
  const own = told.find(({ you }) => you);
  return (
    <>
      {own !== undefined && (
        <Panel
          title={own.agrees === null ? "Does it suit you?" : "Your answer"}
          lead={own.agrees === null ? "The managers see your answer. By itself it moves nothing." : `You ${own.agrees ? "agreed" : "objected"}. You may change your answer.`}
          tone={own.agrees === null ? "needsYou" : "plain"}
        >
          <AnswerForm settlementId={settlementId} words={own.words} />
        </Panel>
      )}
      {settles && (
        <Panel title="Who was told, and what they say" lead="Nothing moves because of an answer; to meet an objection, move the run or ask for ways out again.">
          {told.length === 0 ? <p className={styles["soft"]}>Only runs of the one who accepted it moved.</p> : <ul className={styles["lines"]}>{told.map((one) => <Person key={one.name} person={one} timeZone={timeZone} />)}</ul>}
        </Panel>
      )}
    </>
  );
}

function Person({ person: { name, agrees, words, answeredAtMs }, timeZone }: { readonly person: SettlementPerson; readonly timeZone: string }) {
  return (
    <li className={styles["line"]}>
      <span>
        {name}
        {words !== "" && <>: “{words}”</>}
        {answeredAtMs !== null && <span className={styles["soft"]}> {showTime(Temporal.Instant.fromEpochMilliseconds(answeredAtMs), timeZone)}</span>}
      </span>
      <Badge tone={agrees === null ? "plain" : agrees ? "strong" : "trouble"}>{agrees === null ? "has not answered" : agrees ? "agrees" : "objects"}</Badge>
    </li>
  );
}
