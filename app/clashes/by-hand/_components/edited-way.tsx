import { randomUUID } from "node:crypto";
import { Temporal } from "temporal-polyfill";
import { KilnWall } from "@/app/_components/kiln-wall";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Row, Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { byHandHref, type ByHand } from "@/lib/contracts/by-hand";
import { paths } from "@/lib/contracts/paths";
import { NOTHING_ASKED, waysOutHref } from "@/lib/contracts/ways-out";
import { showDate } from "@/lib/domain/time/show-time";
import { kilnWall } from "@/lib/server/queries/kiln-wall";
import { byHand } from "@/lib/server/ways-out/by-hand";
import type { Who } from "@/lib/server/who";
import { AcceptWay } from "../../ways-out/_components/accept-way";
import { MoveWords } from "../../ways-out/_components/move-words";
import { wallAfter } from "../../ways-out/_components/wall-after";
import { triedWay } from "../../ways-out/_components/way-column";
import { kilnName, lateWords } from "../../ways-out/_components/way-words";
import { Compared } from "./compared";
import { PutForm } from "./put-form";
import styles from "../../ways-out/ways-out.module.css";

/** What an edit makes of a settlement: its cost before and after, the dates then missed, every move; or why it cannot stand. */
export async function EditedWay({ who, edited }: { readonly who: Who; readonly edited: ByHand }) {
  const [found, wall] = [await byHand(who, edited), await kilnWall(who, null)];
  const back = "way" in edited.base ? waysOutHref({ ...NOTHING_ASKED, tried: edited.base.way }) : paths.season;
  if (!found.ok) return <Notice tone="trouble" action={<LinkButton prefetch={false} href={back}>Work it out again</LinkButton>}>{found.problems[0].message}</Notice>;
  const { before, after, titles, today, fingerprint, aim } = found.value;
  const kilns = new Map(wall.kilns.map(({ id, name }) => [id, name]));
  const say = (day: string): string => showDate(Temporal.PlainDate.from(day));
  const stands = after.ok ? after.value : undefined;
  const accepted = stands === undefined ? undefined : triedWay({ aim, cost: stands.settlement.cost, moves: stands.settlement.moves }, today);
  return (
    <Stack>
      <Panel title="Put by hand" lead="The rest stays as it was worked out. Nothing is searched for.">
        <Stack>
          <ul className={styles["asked"]} aria-label="Put by hand">
            {edited.puts.map((put) => (
              <li key={put.runId} className={styles["wish"]}>
                <span>{titles.get(put.runId)} to {kilnName(kilns, put.kilnId)}, loaded on {say(put.day)}.</span>
                <LinkButton look="bare" prefetch={false} href={byHandHref({ ...edited, puts: edited.puts.filter((one) => one !== put) })}>Take it back</LinkButton>
              </li>
            ))}
          </ul>
          <PutForm edited={edited} titles={titles} kilns={kilns} today={today} />
        </Stack>
      </Panel>
      {!after.ok && <Notice tone="trouble">This cannot stand. {after.problems[0].message}</Notice>}
      <Panel title="What it costs" lead={stands === undefined ? undefined : lateWords(before, stands.settlement)}>
        <Compared before={before} after={stands?.settlement} />
      </Panel>
      {stands !== undefined && accepted !== undefined && stands.times.length > 0 && (
        <Panel title={stands.times.length === 1 ? "One move" : `${stands.times.length} moves`}>
          <Stack>
            <ol className={styles["moves"]}>
              {stands.times.map((time) => {
                const move = stands.settlement.moves.find(({ runId }) => runId === time.runId);
                return move === undefined ? null : <li key={time.runId} id={time.runId} className={styles["move"]}><MoveWords {...{ move, time, kilns, today, say }} timeZone={who.timeZone} /></li>;
              })}
            </ol>
            <Row>
              <AcceptWay
                title="As you put it" kind="by-hand" requestKey={randomUUID()} fingerprint={fingerprint}
                replanId={"way" in edited.base ? undefined : edited.base.replanId}
                again={"way" in edited.base ? waysOutHref({ ...NOTHING_ASKED, tried: accepted }) : `${paths.season}?changed=yes`}
                moves={stands.times.map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom }))}
              />
            </Row>
            <KilnWall {...wallAfter(wall, { times: stands.times, moves: stands.settlement.moves })} timeZone={who.timeZone} />
          </Stack>
        </Panel>
      )}
    </Stack>
  );
}
