import type { Metadata } from "next";
import { after } from "next/server";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { clashesScreen, freeWishes } from "@/lib/server/queries/clashes";
import { warmThreads } from "@/lib/server/settling/threads";
import { ClashPanel } from "./_components/clash-panel";
import { FreeWishes } from "./_components/free-wishes";

export const metadata: Metadata = { title: "Clashes" };

export default async function ClashesPage() {
  const who = await pageWho("settle-clashes", paths.clashes);
  const [clashes, wishes] = [await clashesScreen(who, undefined), await freeWishes(who, undefined)];
  // The ways out are asked for next, one thread each; a thread takes a while to start.
  if (clashes.length > 0) after(() => warmThreads(3));
  return (
    <Page>
      <PageHead title="Clashes" lead={lead(clashes.length)} actions={<><LinkButton href={paths.season}>Plan a season</LinkButton><LinkButton href={paths.wall}>Kiln wall</LinkButton></>} />
      {clashes.length === 0 ? (
        <Empty title="Nothing clashes">
          Everything on the calendar can stand: no two asks for the same weeks, no kiln out of service under a firing,
          enough hands for every lift, and the power within the electrician’s limit.
        </Empty>
      ) : (
        clashes.map((clash) => <ClashPanel key={clash.key} clash={clash} timeZone={who.timeZone} />)
      )}
      <FreeWishes wishes={wishes} timeZone={who.timeZone} />
    </Page>
  );
}

function lead(count: number): string {
  if (count === 0) return "What cannot stand on the calendar shows here as soon as its cause is entered.";
  const many = count === 1 ? "One thing on the calendar cannot stand." : `${count} things on the calendar cannot stand.`;
  return `${many} Each closes by itself when its cause is gone. Nothing moves before you move it, and a started firing never moves.`;
}
