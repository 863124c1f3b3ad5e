import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { LinkButton } from "@/app/_components/link-button";
import { Row } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { showInterval } from "@/lib/domain/time/show-time";
import type { ClashCard } from "@/lib/server/queries/clashes";
import { CLASH_HELP, CLASH_WORDS } from "./clash-words";
import { ClashAskRow } from "./clash-ask-row";
import { ClashFiringRow } from "./clash-firing-row";
import styles from "../clashes.module.css";

/** One clash: what it is, whom it touches, and what can be done about it from here. */
export function ClashPanel({ clash, timeZone }: { readonly clash: ClashCard; readonly timeZone: string }) {
  const during = showInterval({ start: at(clash.startMs), end: at(clash.endMs) }, timeZone);
  return (
    <Panel
      tone="trouble"
      title={
        <Row>
          <Badge tone="trouble">{CLASH_WORDS[clash.kind]}</Badge>
          <span>{clash.equipmentNames.join(", ") || "Workshop"}</span>
        </Row>
      }
      lead={during}
    >
      <p className={styles["sentence"]}>{clash.sentence}</p>
      <p className={styles["help"]}>{CLASH_HELP[clash.kind]}</p>
      <ul className={styles["rows"]}>
        {clash.firings.map((firing) => (
          <ClashFiringRow key={firing.firingId} firing={firing} kind={clash.kind} timeZone={timeZone} />
        ))}
        {clash.asks.map((ask) => (
          <ClashAskRow key={ask.askId} ask={ask} timeZone={timeZone} />
        ))}
      </ul>
      <Row>
        <LinkButton prefetch={false} href={paths.waysOut} look="main">Ways out</LinkButton>
        {clash.kind === "outage" && <LinkButton href={paths.equipment}>Equipment and outages</LinkButton>}
        {clash.kind === "thin-crew" && <LinkButton href={paths.hours}>Staffed hours</LinkButton>}
        {clash.kind === "overload" && <LinkButton href={paths.power}>The electrician’s limit</LinkButton>}
      </Row>
    </Panel>
  );
}

function at(ms: number): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(ms);
}
