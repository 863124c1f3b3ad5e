import { Temporal } from "temporal-polyfill";
import { showTime } from "@/lib/domain/time/show-time";
import type { WrittenMail } from "@/lib/server/queries/mails";
import styles from "./mail.module.css";
import { linesWithLinks } from "./lines-with-links";

type MailListProps = { readonly mails: readonly WrittenMail[]; readonly timeZone: string };

/** Each mail by its subject, newest first; opened, it reads as it was written. */
export function MailList({ mails, timeZone }: MailListProps) {
  return (
    <ul role="list" className={styles["list"]}>
      {mails.map((mail, place) => (
        <li key={mail.mailId}>
          <details className={styles["mail"]} open={place === 0}>
            <summary className={styles["head"]}>
              <span className={styles["subject"]}>{mail.subject}</span>
              <span className={styles["facts"]}>
                to {mail.address}, {showTime(Temporal.Instant.fromEpochMilliseconds(mail.atMs), timeZone)}
                {mail.failure !== null && <strong className={styles["failure"]}> Not delivered: {mail.failure}</strong>}
                {mail.failure === null && mail.file === null && <strong> Waits to be written.</strong>}
              </span>
            </summary>
            <pre className={styles["text"]}>{linesWithLinks(mail.text)}</pre>
            {mail.file !== null && <p className={styles["file"]}>File {mail.file}</p>}
          </details>
        </li>
      ))}
    </ul>
  );
}
