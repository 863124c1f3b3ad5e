import type { Metadata } from "next";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { rolesInWords } from "@/app/_shell/nav-links";
import { paths } from "@/lib/contracts/paths";
import { INVITATION_PROBLEMS } from "@/lib/server/accounts/invitation-problems";
import { readInvitation } from "@/lib/server/accounts/read-invitation";
import { currentPerson } from "@/lib/server/session";
import { JoinForm } from "./join-form";

export const metadata: Metadata = { title: "Invitation", referrer: "no-referrer" };

export default async function InvitationPage({ params }: { readonly params: Promise<{ readonly token: string }> }) {
  const { token } = await params;
  const invitation = await readInvitation(token);
  const state = invitation?.state ?? "unknown";
  if (invitation === null || state !== "open") {
    return (
      <Page narrow>
        <PageHead title="Invitation" />
        <Empty title="This invitation cannot be used" action={<LinkButton href={paths.signIn}>Sign in</LinkButton>}>
          {INVITATION_PROBLEMS[state === "open" ? "unknown" : state].message}
        </Empty>
      </Page>
    );
  }
  const person = await currentPerson();
  const known = invitation.personId === null ? "new" : person?.personId === invitation.personId ? "signed-in" : "known";
  return (
    <Page narrow>
      <PageHead
        kicker="Invitation"
        title={invitation.workshopName}
        lead={`${invitation.name} (${invitation.email}) is invited as ${rolesInWords(invitation.roles)}.`}
      />
      <JoinForm token={token} email={invitation.email} known={known} />
    </Page>
  );
}
