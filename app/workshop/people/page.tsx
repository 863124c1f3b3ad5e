import type { Metadata } from "next";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { DataTable } from "@/app/_components/data-table";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import type { KilnToShow } from "@/lib/contracts/people";
import { showTime } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { workshopPeople, type InvitationLine, type PersonLine } from "@/lib/server/queries/workshop-people";
import { deactivateAction, reactivateAction, withdrawAction } from "./actions";
import { InductionsForm } from "./inductions-form";
import { InviteForm } from "./invite-form";
import { RolesForm } from "./roles-form";

export const metadata: Metadata = { title: "People" };

export default async function PeoplePage() {
  const who = await pageWho("manage-people", paths.people);
  const { people, invitations, kilns } = await workshopPeople(who, undefined);
  return (
    <Page>
      <PageHead title="People" lead="Whoever works here, and as what. One person may have several roles." />
      <DataTable
        caption="People of the workshop"
        rows={people}
        rowKey={(person) => person.memberId}
        columns={[
          { key: "name", title: "Name", cell: (person) => <>{person.name} {person.you && <Badge tone="quiet">you</Badge>} {!person.active && <Badge tone="trouble">left</Badge>}</> },
          { key: "email", title: "Email", cell: (person) => person.email },
          { key: "roles", title: "Roles", cell: (person) => <RolesForm memberId={person.memberId} roles={person.roles} disabled={!person.active} /> },
          ...(kilns.length === 0 ? [] : [inductions(kilns)]),
          { key: "leave", title: "Membership", untitled: true, cell: (person) => <Membership person={person} /> },
        ]}
      />
      <Panel title="Invite somebody" lead="The link works once, for seven days. It is mailed, and shown here to hand over.">
        <InviteForm />
      </Panel>
      {invitations.length > 0 && (
        <Panel title="Invitations that are out">
          <Invitations invitations={invitations} timeZone={who.timeZone} />
        </Panel>
      )}
    </Page>
  );
}

/** Shown once a kiln needs one. */
function inductions(kilns: readonly KilnToShow[]) {
  return {
    key: "inductions",
    title: "Inductions",
    cell: (person: PersonLine) => <InductionsForm memberId={person.memberId} given={person.inductions} kilns={kilns} disabled={!person.active} />,
  };
}

function Membership({ person }: { readonly person: PersonLine }) {
  const values = { memberId: person.memberId };
  if (!person.active) {
    return <ConfirmWithReason trigger="Take back in" title={`Take ${person.name} back in?`} confirmText="Take back in" reason="offered" values={values} action={reactivateAction} />;
  }
  return (
    <ConfirmWithReason trigger="Let go" look="trouble" title={`Let ${person.name} go?`} confirmText="Let go" reason="offered" values={values} action={deactivateAction}>
      <p>They can no longer sign in to this workshop. Their castings, runs and everything on record stay.</p>
    </ConfirmWithReason>
  );
}

function Invitations({ invitations, timeZone }: { readonly invitations: readonly InvitationLine[]; readonly timeZone: string }) {
  return (
    <DataTable
      caption="Invitations"
      rows={invitations}
      rowKey={(one) => one.invitationId}
      columns={[
        { key: "name", title: "Name", cell: (one) => one.name },
        { key: "email", title: "Email", cell: (one) => one.email },
        { key: "roles", title: "As", cell: (one) => one.roles.join(", ") },
        { key: "until", title: "Until", cell: (one) => <>{showTime(Temporal.Instant.fromEpochMilliseconds(one.expiresMs), timeZone)} {one.expired && <Badge tone="trouble">expired</Badge>}</> },
        {
          key: "withdraw",
          title: "Withdraw",
          untitled: true,
          cell: (one) => <ConfirmWithReason trigger="Withdraw" title={`Withdraw the invitation of ${one.name}?`} confirmText="Withdraw it" reason="offered" values={{ invitationId: one.invitationId }} action={withdrawAction} />,
        },
      ]}
    />
  );
}
