import type { Metadata } from "next";
import { NewPasswordForm } from "@/app/_account/new-password-form";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { Select } from "@/app/_components/select";
import { SubmitButton } from "@/app/_components/submit-button";
import styles from "@/app/_account/account.module.css";
import { makeMyFeedAction, revokeMyFeedAction } from "@/app/_feeds/actions";
import { FeedPanel } from "@/app/_feeds/feed-panel";
import { rolesInWords } from "@/app/_shell/nav-links";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { mailChoices } from "@/lib/server/queries/mail-choices";
import { myFeed } from "@/lib/server/queries/my-feed";
import { ownTokens } from "@/lib/server/queries/own-tokens";
import { currentMemberships } from "@/lib/server/session";
import { MailPanel } from "./_components/mail-panel";
import { TokenPanel } from "./_components/token-panel";
import { changePasswordAction, chooseWorkshopAction, endSessionsAction } from "./actions";

export const metadata: Metadata = { title: "Profile" };

export default async function ProfilePage() {
  const who = await pageWho("see-workshop", paths.profile);
  const memberships = await currentMemberships();
  return (
    <Page narrow>
      <PageHead title={who.name} lead={`${who.email}. ${who.workshopName}: ${rolesInWords(who.roles)}.`} />
      {memberships.length > 1 && (
        <Panel title="Workshop">
          <form action={chooseWorkshopAction} className={styles["form"]}>
            <Select name="workshopId" label="Work in" defaultValue={who.workshopId} choices={memberships.map((one) => ({ value: one.workshopId, label: one.workshopName }))} />
            <SubmitButton look="plain">Go there</SubmitButton>
          </form>
        </Panel>
      )}
      <FeedPanel
        title="My calendar"
        lead={who.roles.includes("assistant") ? "Every lift of the workshop, and your own runs, in the calendar of your telephone or computer." : "Your runs and their lifts in the calendar of your telephone or computer."}
        secrecy="Make one, and give it to your calendar program. Whoever has it reads the same as you without signing in, so keep it to yourself."
        standing={await myFeed(who, undefined)}
        timeZone={who.timeZone}
        make={makeMyFeedAction}
        revoke={revokeMyFeedAction}
      />
      <MailPanel email={who.email} timeZone={who.timeZone} mail={await mailChoices(who, undefined)} />
      <TokenPanel tokens={await ownTokens(who, undefined)} timeZone={who.timeZone} />
      <Panel title="Password" lead="Every session ends; sign in again with the new one.">
        <NewPasswordForm action={changePasswordAction} submit="Change the password" withOld />
      </Panel>
      <Panel title="Signed in elsewhere?" lead="Ends every session of yours, here and on every other device. Scripts keep their tokens.">
        <form action={endSessionsAction}>
          <SubmitButton look="trouble">Sign out everywhere</SubmitButton>
        </form>
      </Panel>
    </Page>
  );
}
