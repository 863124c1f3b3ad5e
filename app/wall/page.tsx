import type { Metadata } from "next";
import { Temporal } from "temporal-polyfill";
import { Empty } from "@/app/_components/empty";
import { KilnWall } from "@/app/_components/kiln-wall";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { readDay } from "@/lib/contracts/day";
import { paths } from "@/lib/contracts/paths";
import { can } from "@/lib/domain/access/roles";
import { pageWho } from "@/lib/server/page-who";
import { kilnWall, type KilnWallScreen } from "@/lib/server/queries/kiln-wall";
import type { Who } from "@/lib/server/who";
import { FiringList } from "./_components/firing-list";
import { WallMover } from "./_components/wall-mover";

export const metadata: Metadata = { title: "Kiln wall" };

type Props = { readonly searchParams: Promise<{ readonly from?: string | string[] }> };

export default async function WallPage({ searchParams }: Props) {
  const { from } = await searchParams;
  const asked = typeof from === "string" ? from : undefined;
  const who = await pageWho("see-workshop", asked === undefined ? paths.wall : `${paths.wall}?from=${encodeURIComponent(asked)}`);
  const day = readDay(asked);
  const wall = await kilnWall(who, day);
  const fromDay = Temporal.PlainDate.from(wall.fromDay);
  return (
    <Page>
      <PageHead
        title="Kiln wall"
        lead={wall.kilns.length === 0 ? undefined : spanText(fromDay, wall.weeks)}
        actions={wall.kilns.length === 0 ? undefined : <WallMover fromDay={fromDay} isNow={wall.fromMs <= wall.nowMs && wall.nowMs < wall.fromMs + WEEK_MS} />}
      />
      {asked !== undefined && day === null && (
        <Notice tone="trouble">“{asked}” is not a date such as 2027-03-14; the wall starts with this week instead.</Notice>
      )}
      {wall.kilns.length === 0 ? <NoKilns who={who} /> : <Wall wall={wall} who={who} />}
    </Page>
  );
}

const WEEK_MS = 604_800_000;

function Wall({ wall, who }: { readonly wall: KilnWallScreen; readonly who: Who }) {
  const { fromMs, toMs, nowMs, weeks, kilns, bars, outages, ghosts } = wall;
  return (
    <>
      <KilnWall {...{ fromMs, toMs, nowMs, weeks, kilns, bars, outages, ghosts }} timeZone={who.timeZone} />
      <Panel title="The same as a list" tone="quiet">
        <FiringList wall={wall} timeZone={who.timeZone} settles={can(who.roles, "settle-clashes")} />
      </Panel>
    </>
  );
}

function NoKilns({ who }: { readonly who: Who }) {
  if (can(who.roles, "manage-equipment")) {
    return (
      <Empty title="No kiln yet" action={<LinkButton href={paths.equipment} look="main">Add a kiln</LinkButton>}>
        The wall shows every kiln of the workshop with what is booked on it. Enter the kilns with their inside size, power and limits first.
      </Empty>
    );
  }
  return <Empty title="No kiln yet">The wall shows every kiln of the workshop with what is booked on it. The manager has not entered a kiln yet.</Empty>;
}

function spanText(from: Temporal.PlainDate, weeks: number): string {
  const last = from.add({ weeks }).subtract({ days: 1 });
  return `${dayText(from)} to ${dayText(last)}, to scale.`;
}

function dayText(date: Temporal.PlainDate): string {
  return date.toLocaleString("en-GB", { day: "numeric", month: "long", year: "numeric" });
}
