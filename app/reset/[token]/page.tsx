import type { Metadata } from "next";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { NewPasswordForm } from "@/app/_account/new-password-form";
import { paths } from "@/lib/contracts/paths";
import { LINK_PROBLEMS, resetState } from "@/lib/server/accounts/reset-password";
import { resetAction } from "./actions";

export const metadata: Metadata = { title: "Set a new password", referrer: "no-referrer" };

export default async function ResetPage({ params }: { readonly params: Promise<{ readonly token: string }> }) {
  const { token } = await params;
  const state = await resetState(token);
  return (
    <Page narrow>
      <PageHead title="Set a new password" lead={state === "usable" ? "Every session of yours ends; sign in again with the new one." : undefined} />
      {state === "usable" ? (
        <NewPasswordForm action={resetAction} values={{ token }} submit="Set the password" />
      ) : (
        <Empty title="This link does not work" action={<LinkButton href={paths.forgotten}>Ask for another</LinkButton>}>
          {LINK_PROBLEMS[state].message}
        </Empty>
      )}
    </Page>
  );
}
