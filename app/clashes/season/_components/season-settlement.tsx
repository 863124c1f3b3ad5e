import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { Empty } from "@/app/_components/empty";
import { KilnWall } from "@/app/_components/kiln-wall";
import { LinkButton } from "@/app/_components/link-button";
import { Row, Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { byHandHref } from "@/lib/contracts/by-hand";
import { paths } from "@/lib/contracts/paths";
import { showDate } from "@/lib/domain/time/show-time";
import { seasonWall } from "@/lib/server/queries/kiln-wall";
import type { SeasonScreen } from "@/lib/server/queries/season";
import type { Who } from "@/lib/server/who";
import { AcceptWay } from "../../ways-out/_components/accept-way";
import { MoveWords } from "../../ways-out/_components/move-words";
import { wallAfter } from "../../ways-out/_components/wall-after";
import { DISTANCE_MEANS, distanceWords, figureWords, points } from "../../ways-out/_components/way-words";
import { SeasonDifference } from "./season-difference";
import ways from "../../ways-out/ways-out.module.css";
import styles from "../season.module.css";

type Props = { readonly who: Who; readonly screen: SeasonScreen; readonly plan: NonNullable<SeasonScreen["plan"]>; readonly spanWords: string };

/** A season's plan as one settlement: its totals, how good it is, every move, and the wall before and after. */
export async function SeasonSettlement({ who, screen, plan, spanWords }: Props) {
  const { replanId, ran } = screen;
  const wall = await seasonWall(who, { from: Temporal.PlainDate.from(screen.from), to: Temporal.PlainDate.from(screen.to) });
  const kilns = new Map(wall.kilns.map(({ id, name }) => [id, name]));
  const say = (day: string): string => showDate(Temporal.PlainDate.from(day));
  const { moves, times, figures, aside, today, fingerprint, stopped } = plan;
  const took = `${stopped ? "Stopped after" : "Found in"} ${Math.round(ran ?? 0)} s; costs ${points(plan.cost)}.`;
  return (
    <Stack>
      {screen.before !== null && <SeasonDifference before={screen.before} plan={plan} kilns={kilns} say={say} />}
      <Panel title="The season’s plan" lead={`${spanWords}. ${took}${stopped && plan.atMostPercent !== 0 ? " Looking longer may find something better." : ""}`}>
        <Stack>
          <ul className={ways["figures"]}>{figureWords(figures).map((text) => <li key={text}>{text}</li>)}</ul>
          <p className={ways["distance"]}>{distanceWords(plan)}</p>
          {plan.atMostPercent !== 0 && <p className={styles["soft"]}>{DISTANCE_MEANS}</p>}
          {aside.length > 0 && (
            <div>
              <p>{aside.length === 1 ? "One ask stays waiting:" : `${aside.length} asks stay waiting:`}</p>
              <ul className={styles["aside"]}>{aside.map((text) => <li key={text}>{text}</li>)}</ul>
            </div>
          )}
          {moves.length === 0 ? (
            <Empty title="Nothing needs to move">What stands in this season stands as well as can be.</Empty>
          ) : (
            <Row>
              <AcceptWay title="The season’s plan" kind="season" replanId={replanId} again={`${paths.season}?changed=yes`} moves={times.map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom }))} fingerprint={fingerprint} requestKey={randomUUID()} />
              <LinkButton prefetch={false} href={byHandHref({ base: { replanId }, puts: [] })}>Put a run elsewhere by hand</LinkButton>
            </Row>
          )}
        </Stack>
      </Panel>
      {moves.length > 0 && (
        <Panel title={moves.length === 1 ? "One move" : `${moves.length} moves`}>
          <ol className={styles["lines"]}>
            {times.map((time) => {
              const move = moves.find(({ runId }) => runId === time.runId);
              return move === undefined ? null : <li key={time.runId} id={time.runId} className={ways["move"]}><MoveWords {...{ move, time, kilns, today, say }} timeZone={who.timeZone} /></li>;
            })}
          </ol>
        </Panel>
      )}
      {moves.length > 0 && <Panel title="The kiln wall after it" tone="quiet"><KilnWall {...wallAfter(wall, plan)} timeZone={who.timeZone} /></Panel>}
      <Panel title="The kiln wall as it is" tone="quiet"><KilnWall {...wall} timeZone={who.timeZone} /></Panel>
    </Stack>
  );
}
