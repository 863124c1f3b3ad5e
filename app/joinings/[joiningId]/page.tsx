import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { SharedBody } from "@/app/_sharing/shared-body";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { showTime } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { joiningScreen, type JoiningScreen } from "@/lib/server/queries/joining";
import { AnswerPanel } from "./_components/answer-panel";

export const metadata: Metadata = { title: "Sharing a firing" };

const HEADS: Readonly<Record<string, string>> = { open: "Waiting for answers", agreed: "Agreed", declined: "Declined", withdrawn: "Taken back", lapsed: "Lapsed" };

export default async function JoiningPage({ params }: { readonly params: Promise<{ readonly joiningId: string }> }) {
  const { joiningId } = await params;
  const who = await pageWho("see-workshop", paths.joining(joiningId));
  const screen = isId(joiningId) ? await joiningScreen(who, joiningId) : null;
  if (screen === null) notFound();
  const { firingId, title, castingTitle, by, status, view } = screen;
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.firing(firingId)}>The firing of {title}</Link>}
        title={`Shall ${castingTitle} share it?`}
        lead={`${HEADS[status] ?? status}. ${by} proposed it${view === null ? "" : ` for ${view.kilnName}`}.`}
      />
      <Over screen={screen} />
      <AnswerPanel screen={screen} until={showTime(Temporal.Instant.from(screen.expiresAt), who.timeZone)} timeZone={who.timeZone} />
      {view === null ? <Empty title="Nothing can be drawn">The kiln of this firing is no longer in use.</Empty> : <SharedBody view={view} joining={newest(screen)} timeZone={who.timeZone} />}
    </Page>
  );
}

/** The casting that wants to join stands last. */
function newest({ view }: JoiningScreen): string | undefined {
  return view?.rows.at(-1)?.castingId;
}

function Over({ screen: { status, over, firingId } }: { readonly screen: JoiningScreen }) {
  if (over === null) return null;
  const action = <LinkButton href={paths.firing(firingId)}>The firing</LinkButton>;
  return status === "agreed" ? <Notice tone="done" action={action}>{over} It is booked.</Notice> : <Notice action={action}>{over} The firing was left as it is.</Notice>;
}
