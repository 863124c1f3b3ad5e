import type { Metadata } from "next";
import Link from "next/link";
import { Page, PageHead } from "@/app/_components/page";
import { EMPTY_FORM } from "@/lib/contracts/casting-fields";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { readNewCasting } from "@/lib/server/queries/casting";
import { CastingEditor } from "../_components/casting-editor";
import { createCastingAction } from "../actions";

export const metadata: Metadata = { title: "New casting" };

export default async function NewCastingPage() {
  const who = await pageWho("write-castings", paths.newCasting);
  const { kilns, costs, requestKey, today } = await readNewCasting(who, undefined);
  return (
    <Page>
      <PageHead kicker={<Link href={paths.castings}>Castings</Link>} title="Describe a casting" />
      <CastingEditor start={EMPTY_FORM} kilns={kilns} costs={costs} action={createCastingAction} posted={{ requestKey }} saveText="Save the casting" today={today} />
    </Page>
  );
}
