import type { Metadata } from "next";
import { Temporal } from "temporal-polyfill";
import { buttonClass } from "@/app/_components/button";
import { DataTable } from "@/app/_components/data-table";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead, Row } from "@/app/_components/page";
import { TextField } from "@/app/_components/text-field";
import { paths } from "@/lib/contracts/paths";
import { showTimeWithYear } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { workshopRecord, type RecordLine } from "@/lib/server/queries/workshop-record";
import styles from "../workshop.module.css";

export const metadata: Metadata = { title: "Record" };

type Props = { readonly searchParams: Promise<{ readonly page?: string; readonly text?: string }> };

export default async function RecordPage({ searchParams }: Props) {
  const { page: asked = "1", text = "" } = await searchParams;
  const who = await pageWho("read-record", paths.record);
  const record = await workshopRecord(who, { page: /^\d{1,6}$/.test(asked) ? Number(asked) : 1, text: text.slice(0, 100) });
  const to = (page: number) => `${paths.record}?${new URLSearchParams({ page: String(page), text }).toString()}`;
  return (
    <Page>
      <PageHead title="Record" lead={`Who changed what, when and why; ${record.total} entries, newest first. Nothing is ever taken out of it.`} />
      <form action={paths.record} className={styles["span"]}>
        <TextField name="text" label="Look for" type="search" defaultValue={text} hint="In what was done, to what or whom, why, and by whom." />
        <button type="submit" className={buttonClass()}>
          Look
        </button>
      </form>
      <DataTable
        caption="The record"
        rows={record.lines}
        rowKey={(line) => line.auditId}
        empty={<Empty title={text === "" ? "Nothing was changed yet" : `Nothing on record speaks of “${text}”`} />}
        columns={[
          { key: "at", title: "When", cell: (line) => showTimeWithYear(Temporal.Instant.fromEpochMilliseconds(line.atMs), who.timeZone) },
          { key: "who", title: "Who", cell: (line) => line.who },
          { key: "what", title: "What", cell: (line) => <What line={line} /> },
          { key: "why", title: "Why", cell: (line) => line.reason ?? "" },
        ]}
      />
      {record.pages > 1 && (
        <Row>
          {record.page > 1 && <LinkButton href={to(record.page - 1)}>Newer</LinkButton>}
          <span>
            Page {record.page} of {record.pages}
          </span>
          {record.page < record.pages && <LinkButton href={to(record.page + 1)}>Older</LinkButton>}
        </Row>
      )}
    </Page>
  );
}

function What({ line }: { readonly line: RecordLine }) {
  return (
    <>
      {line.action.replaceAll("-", " ")}
      {line.called !== "" && `: ${line.called}`}
      {line.before !== "" && <span className={styles["soft"]}>before: {line.before}</span>}
      {line.after !== "" && <span className={styles["soft"]}>after: {line.after}</span>}
    </>
  );
}
