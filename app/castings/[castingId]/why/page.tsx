import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Page, PageHead } from "@/app/_components/page";
import { KilnLinks } from "@/app/_why/kiln-links";
import { WhyBody } from "@/app/_why/why-body";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { castingWhy } from "@/lib/server/queries/why";

export const metadata: Metadata = { title: "Why" };

type Props = { readonly params: Promise<{ readonly castingId: string }>; readonly searchParams: Promise<{ readonly kiln?: string | string[] }> };

export default async function CastingWhyPage({ params, searchParams }: Props) {
  const { castingId } = await params;
  const { kiln } = await searchParams;
  const who = await pageWho("write-castings", paths.castingWhy(castingId));
  const kilnId = typeof kiln === "string" && isId(kiln) ? kiln : null;
  const screen = isId(castingId) ? await castingWhy(who, { castingId, kilnId }) : null;
  if (screen === null) notFound();
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.casting(castingId)}>{screen.title}</Link>}
        title="Why so long"
        lead={`The casting as it is saved, in ${screen.kiln?.name ?? "a large ideal kiln"}: what its program does to the glass, and what would shorten it.`}
        actions={<KilnLinks castingId={castingId} kilns={screen.kilns} shown={screen.kiln?.id ?? null} />}
      />
      <WhyBody screen={screen} />
    </Page>
  );
}
