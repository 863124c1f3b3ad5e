import type { Metadata } from "next";
import { Empty } from "./_components/empty";
import { LinkButton } from "./_components/link-button";
import { Page, PageHead } from "./_components/page";
import { paths } from "@/lib/contracts/paths";

export const metadata: Metadata = { title: "Not for your role" };

export default function Forbidden() {
  return (
    <Page>
      <PageHead title="Not for your role" />
      <Empty title="Your roles in this workshop do not cover this page" action={<LinkButton href={paths.home}>Go to the first page</LinkButton>}>
        The manager decides who holds which role.
      </Empty>
    </Page>
  );
}
