import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Temporal } from "temporal-polyfill";
import { buttonClass } from "@/app/_components/button";
import { Empty } from "@/app/_components/empty";
import { FormProblems } from "@/app/_components/form-problems";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { isId } from "@/lib/contracts/is-id";
import { paths } from "@/lib/contracts/paths";
import { showInterval } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { moveTimes, type MoveTimesScreen } from "@/lib/server/queries/move-times";
import { MoveForm } from "./_components/move-form";
import styles from "./move.module.css";

export const metadata: Metadata = { title: "Move the run" };

type Props = {
  readonly params: Promise<{ readonly firingId: string }>;
  readonly searchParams: Promise<{ readonly notBefore?: string }>;
};

export default async function MovePage({ params, searchParams }: Props) {
  const { firingId } = await params;
  const { notBefore } = await searchParams;
  const who = await pageWho("book-runs", paths.moveRun(firingId));
  const screen = isId(firingId) ? await moveTimes(who, { firingId, notBefore }) : null;
  if (screen === null) notFound();
  const now = { start: Temporal.Instant.from(screen.kilnFrom), end: Temporal.Instant.from(screen.kilnTo) };
  return (
    <Page>
      <PageHead
        kicker={<Link href={paths.firing(firingId)}>Firing of {screen.title}</Link>}
        title="Move the run"
        lead={`Now ${screen.kilnName}, ${showInterval(now, who.timeZone)}. Everything of the run moves together, or nothing does.`}
        actions={<NotBefore screen={screen} notBefore={notBefore} />}
      />
      <FormProblems problems={screen.problems} />
      {screen.status !== "planned" ? (
        <Empty title={`This firing is ${screen.status}`} action={<LinkButton href={paths.firing(firingId)}>Back to the firing</LinkButton>}>
          Only a planned run can be moved.
        </Empty>
      ) : screen.offers.kilns.every((kiln) => kiln.runs.length === 0) && screen.problems.length === 0 ? (
        <Empty title="There is no other time for this run">{screen.offers.refusals.join(" ")}</Empty>
      ) : (
        <MoveForm screen={screen} timeZone={who.timeZone} />
      )}
    </Page>
  );
}

function NotBefore({ screen, notBefore }: { readonly screen: MoveTimesScreen; readonly notBefore: string | undefined }) {
  return (
    <form action={paths.moveRun(screen.firingId)} className={styles["notBefore"]}>
      <label htmlFor="notBefore">Not before</label>
      <input id="notBefore" key={notBefore} type="date" name="notBefore" min={screen.today} defaultValue={notBefore ?? screen.today} />
      <button type="submit" className={buttonClass()}>
        Look again
      </button>
    </form>
  );
}
