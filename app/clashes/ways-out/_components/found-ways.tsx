import { Temporal } from "temporal-polyfill";
import { Empty } from "@/app/_components/empty";
import { KilnWall } from "@/app/_components/kiln-wall";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Row, Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { NOTHING_ASKED, waysOutHref, type AskedWays } from "@/lib/contracts/ways-out";
import type { Outcome } from "@/lib/domain/refusal";
import { showDate } from "@/lib/domain/time/show-time";
import { kilnWall } from "@/lib/server/queries/kiln-wall";
import type { WayOut, WaysOut } from "@/lib/server/ways-out/ways-out";
import type { Who } from "@/lib/server/who";
import { AskedList } from "./asked-list";
import { ChangedSince } from "./changed-since";
import { WayColumn } from "./way-column";
import styles from "../ways-out.module.css";

type Props = { readonly who: Who; readonly asked: AskedWays; readonly found: Promise<Outcome<WaysOut>> };

/** The ways out that were found, side by side, or why there is none. */
export async function FoundWays({ who, asked, found: finding }: Props) {
  const [found, wall] = [await finding, await kilnWall(who, null)];
  if (!found.ok) {
    return (
      <Stack>
        {asked.tried !== null && <Notice tone="trouble">The calendar has changed since this was worked out, so nothing was moved. Worked out again, there is no way out as things stand now.</Notice>}
        {found.problems.map(({ message }) => <Notice key={message} tone="trouble">{message}</Notice>)}
        <Row>
          <LinkButton prefetch={false} href={waysOutHref(NOTHING_ASKED)}>Ask again without wishes</LinkButton>
          <LinkButton href={paths.clashes}>Back to the clashes</LinkButton>
        </Row>
      </Stack>
    );
  }
  const { ways, titles, fingerprint, today, notPlaced } = found.value;
  const kilns = new Map(wall.kilns.map(({ id, name }) => [id, name]));
  const say = (day: string): string => showDate(Temporal.PlainDate.from(day));
  const again = { ...asked, tried: null, was: ways.map(summary) };
  return (
    <Stack>
      {asked.tried !== null && <ChangedSince who={who} tried={asked.tried} {...{ ways, titles, today, kilns, say }} />}
      <AskedList asked={again} titles={titles} kilns={kilns} say={say} />
      {notPlaced.map((message) => <Notice key={message}>One way was left out, because the hours of its days do not allow it. {message}</Notice>)}
      {ways.every(({ moves }) => moves.length === 0) ? (
        <Empty title="Nothing needs to move" action={<LinkButton href={paths.clashes}>Back to the clashes</LinkButton>}>
          What stands can stay where it is. A clash that shows all the same has another cause: lengthen a booking, or plan a run anew.
        </Empty>
      ) : (
        <>
          <div className={styles["ways"]}>
            {ways.map((way) => <WayColumn key={way.aim} {...{ way, asked: again, kilns, titles, today, fingerprint, wall, say }} timeZone={who.timeZone} was={asked.was.find((text) => text.startsWith(`${way.aim}.`))} />)}
          </div>
          <Row>
            <LinkButton prefetch={false} href={waysOutHref(again)}>Work them out again</LinkButton>
            {!asked.thorough && <LinkButton prefetch={false} href={waysOutHref({ ...again, thorough: true })}>Look longer, to prove more</LinkButton>}
          </Row>
          <Panel title="The kiln wall as it is" tone="quiet">
            <KilnWall {...wall} timeZone={who.timeZone} />
          </Panel>
        </>
      )}
    </Stack>
  );
}

function summary({ aim, figures }: WayOut): string {
  return `${aim}.${figures.moved}.${figures.daysLate}`;
}
