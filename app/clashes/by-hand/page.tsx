import type { Metadata } from "next";
import Link from "next/link";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { byHandHref, readByHand } from "@/lib/contracts/by-hand";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { EditedWay } from "./_components/edited-way";

export const metadata: Metadata = { title: "By hand" };

type Props = { readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>> };

/** A settlement that is edited by hand, with what every edit costs. */
export default async function ByHandPage({ searchParams }: Props) {
  const edited = readByHand(await searchParams);
  const who = await pageWho("settle-clashes", edited === null ? paths.byHand : byHandHref(edited));
  const isSeason = edited !== null && "replanId" in edited.base;
  return (
    <Page>
      <PageHead
        title="By hand"
        kicker={isSeason ? <Link href={paths.season}>The season’s plan</Link> : <Link href={paths.waysOut} prefetch={false}>Ways out</Link>}
        lead="Put a run on another kiln or another day, and see what that costs and which dates it misses. Nothing moves before you accept it."
      />
      {edited === null ? (
        <Empty title="No settlement to edit" action={<LinkButton href={paths.waysOut} prefetch={false}>Ways out</LinkButton>}>
          Choose one of the ways out of a clash first, or the plan of a season, and put a run elsewhere there.
        </Empty>
      ) : (
        <EditedWay who={who} edited={edited} />
      )}
    </Page>
  );
}
