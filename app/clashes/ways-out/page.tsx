import type { Metadata } from "next";
import Link from "next/link";
import { Suspense } from "react";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { Slow } from "@/app/_components/slow";
import { paths } from "@/lib/contracts/paths";
import { readAskedWays, waysOutHref } from "@/lib/contracts/ways-out";
import { pageWho } from "@/lib/server/page-who";
import { waysOut } from "@/lib/server/ways-out/ways-out";
import { WaysProgress } from "@/lib/server/ways-out/ways-progress";
import { FoundWays } from "./_components/found-ways";
import { SoFar } from "./_components/so-far";

export const metadata: Metadata = { title: "Ways out" };

type Props = { readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>> };

export default async function WaysOutPage({ searchParams }: Props) {
  const { asked, unread } = readAskedWays(await searchParams);
  const href = waysOutHref(asked);
  const who = await pageWho("settle-clashes", href);
  const progress = new WaysProgress();
  const found = waysOut(who, { asked, progress }).finally(() => progress.end());
  return (
    <Page>
      <PageHead
        title="Ways out"
        kicker={<Link href={paths.clashes}>Clashes</Link>}
        lead="Each is complete: everything that clashes gets a place, and every consequence is listed. Nothing moves before you accept one, and a started firing never moves."
      />
      {unread > 0 && <Notice tone="trouble">{unread === 1 ? "One wish" : `${unread} wishes`} in this address could not be read and were left out.</Notice>}
      <Suspense key={href} fallback={<Slow text={`Working out three ways through the coming half year, each tried to the quarter hour. About ${asked.thorough ? "15" : "4"} seconds…`} />}>
        <FoundWays who={who} asked={asked} found={found} />
      </Suspense>
      <Suspense key={`${href} so far`}>
        <SoFar progress={progress} />
      </Suspense>
    </Page>
  );
}
