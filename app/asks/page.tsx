import type { Metadata } from "next";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { asksScreen } from "@/lib/server/queries/asks";
import { HoldLimit } from "./_components/hold-limit";
import { MyAsk } from "./_components/my-ask";
import { OrderTable } from "./_components/order-table";
import styles from "./asks.module.css";

export const metadata: Metadata = { title: "Asks" };

export default async function AsksPage() {
  const who = await pageWho("book-runs", paths.asks);
  const { mine, all, rule, holdsEach, waiting, nowMs, today } = await asksScreen(who, undefined);
  const view = { nowMs, today, waiting, timeZone: who.timeZone };
  return (
    <Page>
      <PageHead title="Asks" lead="Kiln time that is asked for. Whatever becomes free is offered in this order, and held for a day for whom it is offered to." />
      <Panel title="My asks">
        {mine.length === 0 ? (
          <Empty title="No ask of yours is open" action={<LinkButton href={paths.castings}>Your castings</LinkButton>}>
            Where no run of a casting suits you, ask for time below the runs that it is offered: you are told as soon as some becomes free.
          </Empty>
        ) : (
          mine.map((ask) => <MyAsk key={ask.askId} ask={ask} {...view} />)
        )}
      </Panel>
      {all !== null && (
        <Panel title="Who is next, and why" lead="Time that becomes free goes to the first whom it suits. Nobody can be put before another; to book out of the order, book the run, and the record says so.">
          {all.length === 0 ? <Empty title="Nobody asks for time">Asks show here with what decides between them.</Empty> : <OrderTable asks={all} timeZone={who.timeZone} />}
        </Panel>
      )}
      <Panel tone="quiet" title="The order">
        <ol className={styles["rule"]}>
          {rule.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ol>
      </Panel>
      {all !== null && (
        <Panel tone="quiet" title="Holding" lead="A run can be held for 24 hours without being booked; then it lapses by itself.">
          <HoldLimit holdsEach={holdsEach} />
        </Panel>
      )}
    </Page>
  );
}
