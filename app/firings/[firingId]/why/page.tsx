import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { Page, PageHead } from "@/app/_components/page";
import { WhyBody } from "@/app/_why/why-body";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { firingWhy } from "@/lib/server/queries/why";

export const metadata: Metadata = { title: "Why" };

export default async function FiringWhyPage({ params }: { readonly params: Promise<{ readonly firingId: string }> }) {
  const { firingId } = await params;
  const who = await pageWho("see-workshop", paths.firingWhy(firingId));
  const screen = isId(firingId) ? await firingWhy(who, firingId) : null;
  if (screen === null) notFound();
  const startClock = { instantMs: Temporal.Instant.from(screen.startsAt).epochMilliseconds, timeZone: who.timeZone };
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.firing(firingId)}>{screen.title}</Link>}
        title="Why so long"
        lead={`The plan as it was booked in ${screen.kiln?.name ?? "its kiln"}: what its program does to the glass, and what would have shortened it.`}
      />
      <WhyBody screen={screen} startClock={startClock} />
    </Page>
  );
}
