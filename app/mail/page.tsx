import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Empty } from "@/app/_components/empty";
import { Page, PageHead } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";
import { env } from "@/lib/server/env";
import { pageWho } from "@/lib/server/page-who";
import { writtenMails } from "@/lib/server/queries/mails";
import { MailList } from "./mail-list";

export const metadata: Metadata = { title: "Mail" };

export default async function MailPage() {
  const who = await pageWho("see-workshop", paths.mails);
  const { mailPage, mailFolder } = env();
  if (!mailPage) notFound();
  const mails = await writtenMails(who, undefined);
  const whose = who.roles.includes("manager") ? "everybody's of this workshop" : "yours";
  return (
    <Page>
      <PageHead title="Mail" lead={<>No mail server is set here, so mail goes nowhere: it is written to files in <code>{mailFolder}</code>. You see {whose}.</>} />
      {mails.length === 0 ? (
        <Empty title="No mail yet">When a run is booked, moved or taken away by somebody else, or somebody is invited, the mail about it can be read here.</Empty>
      ) : (
        <MailList mails={mails} timeZone={who.timeZone} />
      )}
    </Page>
  );
}
