import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { formOf } from "@/lib/contracts/casting-form-of";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { withTaken } from "@/lib/contracts/taken-fields";
import { pageWho } from "@/lib/server/page-who";
import { readCastingScreen, type CastingScreen } from "@/lib/server/queries/casting";
import { CastingEditor } from "../_components/casting-editor";
import { NextStep } from "../_components/next-step";
import { changeCastingAction, withdrawCastingAction } from "../actions";

export const metadata: Metadata = { title: "Casting" };

type Props = { readonly params: Promise<{ readonly castingId: string }>; readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>> };

export default async function CastingPage({ params, searchParams }: Props) {
  const { castingId } = await params;
  const who = await pageWho("write-castings", paths.casting(castingId));
  const screen = isId(castingId) ? await readCastingScreen(who, castingId) : null;
  if (screen === null) notFound();
  const { casting, next, version } = screen;
  const saved = formOf(casting);
  const taken = withTaken(saved, await searchParams);
  const bookable = next.step === "book-run" || next.step === "asked";
  return (
    <Page>
      <PageHead
        kicker={
          <>
            <Link href={paths.castings}>Castings</Link>
            {!screen.mine && ` · ${screen.owner}`}
          </>
        }
        title={casting.title}
        lead={<NextStep line={next} timeZone={who.timeZone} />}
        actions={<Actions screen={screen} />}
      />
      <CastingEditor
        start={taken ?? saved}
        mesh={screen.mesh}
        taken={taken !== null}
        kilns={screen.kilns}
        costs={screen.costs}
        action={changeCastingAction}
        posted={{ castingId, version: String(version) }}
        saveText="Save changes"
        findTimeHref={bookable ? paths.findTime(castingId) : undefined}
        today={screen.today}
      />
    </Page>
  );
}

function Actions({ screen: { castingId, next, casting } }: { readonly screen: CastingScreen }) {
  const booked = next.firingId !== null;
  return (
    <>
      {booked ? (
        <LinkButton href={paths.firing(next.firingId)} look="main">See its firing</LinkButton>
      ) : (
        <LinkButton href={paths.findTime(castingId)} look="main">Find time</LinkButton>
      )}
      {(!booked || next.step === "opened") && (
        <ConfirmWithReason trigger="Withdraw" look="bare" title={`Withdraw ${casting.title}?`} confirmText="Withdraw it" reason="none" values={{ castingId }} action={withdrawCastingAction}>
          <p>It leaves the list, and an open ask for kiln time goes with it. The record keeps what it was.</p>
        </ConfirmWithReason>
      )}
    </>
  );
}
