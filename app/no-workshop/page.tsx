import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { Empty } from "@/app/_components/empty";
import { Page } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";
import { currentPerson, currentWho } from "@/lib/server/session";

export const metadata: Metadata = { title: "No workshop" };

export default async function NoWorkshopPage() {
  if ((await currentPerson()) === null) redirect(paths.signIn);
  if ((await currentWho()) !== null) redirect(paths.home);
  return (
    <Page narrow>
      <Empty title="You belong to no workshop at the moment">
        Your account is in order, but no workshop counts you among its people. Ask the manager for an invitation.
      </Empty>
    </Page>
  );
}
