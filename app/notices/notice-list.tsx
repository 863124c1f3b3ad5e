import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { classNames } from "@/app/_components/class-names";
import { showTime } from "@/lib/domain/time/show-time";
import type { NoticeLine } from "@/lib/server/rows/notices";
import styles from "./notices.module.css";

type NoticeListProps = { readonly notices: readonly NoticeLine[]; readonly timeZone: string };

/** What one was told, newest first, each leading to what it is about. */
export function NoticeList({ notices, timeZone }: NoticeListProps) {
  return (
    <ul role="list" className={styles["list"]}>
      {notices.map(({ noticeId, text, href, atMs, read }) => (
        <li key={noticeId} className={classNames(styles["notice"], !read && styles["unread"])}>
          <Link href={href}>
            {!read && <span className="sr-only">Unread: </span>}
            {text}
          </Link>
          <time className={styles["when"]} dateTime={new Date(atMs).toISOString()}>
            {showTime(Temporal.Instant.fromEpochMilliseconds(atMs), timeZone)}
          </time>
        </li>
      ))}
    </ul>
  );
}
