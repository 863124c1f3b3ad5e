import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { SharedBody } from "@/app/_sharing/shared-body";
import { isId } from "@/lib/contracts/is-id";
import { ANSWER_DAYS } from "@/lib/contracts/joining";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { sharePreview, type SharePreview } from "@/lib/server/queries/share-preview";
import { ProposeForm } from "./_components/propose-form";

export const metadata: Metadata = { title: "Share a firing" };

export default async function SharePage({ params }: { readonly params: Promise<{ readonly firingId: string; readonly castingId: string }> }) {
  const { firingId, castingId } = await params;
  const who = await pageWho("book-runs", paths.shareFiring(firingId, castingId));
  const preview = isId(firingId) && isId(castingId) ? await sharePreview(who, { firingId, castingId }) : null;
  if (preview === null) notFound();
  const { title, together, view, problems } = preview;
  return (
    <Page>
      <PageHead kicker={<Link href={paths.firing(firingId)}>The firing of {title}</Link>} title={together} lead={view === null ? undefined : `How it would be to fire them together in ${view.kilnName}. Nothing is booked yet.`} />
      {view === null ? (
        <Empty title="They cannot be fired together" action={<LinkButton href={paths.findTime(castingId)}>Find time of its own</LinkButton>}>
          {problems.map(({ message }) => message).join(" ")}
        </Empty>
      ) : (
        <>
          <Ask preview={preview} />
          <SharedBody view={view} joining={castingId} timeZone={who.timeZone} />
        </>
      )}
    </Page>
  );
}

function Ask({ preview: { asks, firingId, castingId, version, requestKey } }: { readonly preview: SharePreview }) {
  const values = { firingId, castingId, version: String(version), requestKey };
  if (asks.length === 0) {
    return (
      <Panel tone="needsYou" title="Both are yours" lead="Nobody has to be asked: the firing gets the joined plan at once.">
        <ProposeForm values={values} submit="Fire them together" />
      </Panel>
    );
  }
  return (
    <Panel tone="needsYou" title={`Ask ${listed(asks)}`} lead={`Everybody in the firing sees this page and has to accept, within ${ANSWER_DAYS} days and before the first lift. Until then nothing changes.`}>
      <ProposeForm values={values} submit="Propose it" />
    </Panel>
  );
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`;
}
