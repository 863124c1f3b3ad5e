import type { Metadata } from "next";
import { Empty } from "@/app/_components/empty";
import { Page, PageHead } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { listNotices } from "@/lib/server/queries/notices";
import { NoticeList } from "./notice-list";
import { MarkRead } from "./mark-read";

export const metadata: Metadata = { title: "Notices" };

export default async function NoticesPage() {
  const who = await pageWho("see-workshop", paths.notices);
  const { notices, upTo } = await listNotices(who, undefined);
  const unread = notices.filter((notice) => !notice.read).length;
  return (
    <Page>
      <PageHead title="Notices" lead={unread === 0 ? undefined : `${unread} unread.`} actions={upTo !== null && <MarkRead upTo={upTo} />} />
      {notices.length === 0 ? (
        <Empty title="Nothing to tell you yet">When somebody moves your run, changes your casting or a kiln goes out of service, it stands here.</Empty>
      ) : (
        <NoticeList notices={notices} timeZone={who.timeZone} />
      )}
    </Page>
  );
}
