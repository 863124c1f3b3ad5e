import type { Metadata } from "next";
import { Empty } from "./_components/empty";
import { LinkButton } from "./_components/link-button";
import { Page, PageHead } from "./_components/page";
import { paths } from "@/lib/contracts/paths";

export const metadata: Metadata = { title: "Not found" };

export default function NotFound() {
  return (
    <Page>
      <PageHead title="Nothing stands here" />
      <Empty title="There is no such page in this workshop" action={<LinkButton href={paths.home}>Go to the first page</LinkButton>}>
        It may have been withdrawn, or it belongs to another workshop.
      </Empty>
    </Page>
  );
}
