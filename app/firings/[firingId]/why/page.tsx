import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead, Row, Stack } from "@/app/_components/page";
import { WhyBody } from "@/app/_why/why-body";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { firingWhy } from "@/lib/server/queries/why";

export const metadata: Metadata = { title: "Why" };

type Props = { readonly params: Promise<{ readonly firingId: string }>; readonly searchParams: Promise<{ readonly casting?: string }> };

export default async function FiringWhyPage({ params, searchParams }: Props) {
  const { firingId } = await params;
  const { casting = null } = await searchParams;
  const who = await pageWho("see-workshop", paths.firingWhy(firingId));
  const screen = isId(firingId) ? await firingWhy(who, { firingId, castingId: casting }) : null;
  if (screen === null) notFound();
  const startClock = { instantMs: Temporal.Instant.from(screen.startsAt).epochMilliseconds, timeZone: who.timeZone };
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.firing(firingId)}>{screen.title}</Link>}
        title="Why so long"
        lead={`The plan as it was booked in ${screen.kiln?.name ?? "its kiln"}: what its program does to the glass, and what would have shortened it.`}
      />
      {screen.castings.length > 0 && (
        <Stack>
          <Row>
            {screen.castings.map(({ id, title }) => (
              <LinkButton key={id} href={paths.firingWhy(firingId, id)} look={id === screen.castingId ? "main" : "plain"}>{title}</LinkButton>
            ))}
          </Row>
          <p>Several castings share this program. Here is how {screen.title} lives through it; what would shorten a plan is worked out for {screen.title} alone.</p>
        </Stack>
      )}
      <WhyBody key={screen.castingId} screen={screen} startClock={startClock} />
    </Page>
  );
}
