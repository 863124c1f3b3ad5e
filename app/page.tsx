import { Temporal } from "temporal-polyfill";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { can } from "@/lib/domain/access/roles";
import { showDate } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { freeWishes } from "@/lib/server/queries/clashes";
import { readHome, type HomeScreen } from "@/lib/server/queries/home";
import { openClashCount } from "@/lib/server/queries/open-clashes";
import { ClashCount } from "./_home/clash-count";
import { ComingUp } from "./_home/coming-up";
import { FirstSteps } from "./_home/first-steps";
import { NeedsYou, waitsForSomething } from "./_home/needs-you";
import { WishCount } from "./_home/wish-count";
import styles from "./_home/home.module.css";

/** What needs me? Everything else comes after. */
export default async function HomePage() {
  const who = await pageWho("see-workshop", paths.home);
  const home = await readHome(who, undefined);
  const settles = can(who.roles, "settle-clashes");
  const clashes = settles ? await openClashCount(who, undefined) : 0;
  const wishes = settles ? (await freeWishes(who, undefined)).length : 0;
  const firstTime = home.castings?.length === 0 && !settles && home.heavyLifts === null;
  const waits = clashes > 0 || wishes > 0 || waitsForSomething(home);
  return (
    <Page>
      <PageHead title="What needs you" lead={firstTime && !waits ? `Welcome to ${who.workshopName}, ${who.name}.` : undefined} />
      {waits && (
        <ul role="list" className={styles["list"]}>
          <ClashCount count={clashes} />
          <WishCount count={wishes} />
          <NeedsYou home={home} timeZone={who.timeZone} memberName={who.name} />
        </ul>
      )}
      {!waits && !firstTime && <Quiet home={home} />}
      {home.castings !== null && <ComingUp castings={home.castings} timeZone={who.timeZone} />}
      {firstTime ? <FirstSteps /> : <Elsewhere home={home} />}
    </Page>
  );
}

function Quiet({ home }: { readonly home: HomeScreen }) {
  return (
    <Empty title="Nothing waits for you">
      {home.heavyLifts === null ? "Your castings have their runs, and no sheet is due." : liftText(home.heavyLifts)}
    </Empty>
  );
}

function liftText({ day, lifts }: NonNullable<HomeScreen["heavyLifts"]>): string {
  const when = showDate(Temporal.PlainDate.from(day));
  if (lifts === 0) return `No lifts on ${when}, the next staffed day.`;
  return `${lifts === 1 ? "One lift" : `${lifts} lifts`} on ${when}, none of them heavy.`;
}

function Elsewhere({ home }: { readonly home: HomeScreen }) {
  return (
    <Panel title="From here" tone="quiet">
      <div className={styles["elsewhere"]}>
        {home.castings !== null && <LinkButton href={paths.newCasting} look="main">Describe a casting</LinkButton>}
        {home.heavyLifts !== null && <LinkButton href={paths.lifts(home.heavyLifts.day)}>Lift sheet</LinkButton>}
        <LinkButton href={paths.wall}>Kiln wall</LinkButton>
        <LinkButton href={paths.calendar}>Calendar</LinkButton>
      </div>
    </Panel>
  );
}
