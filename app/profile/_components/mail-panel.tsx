import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { mailLabel } from "@/lib/contracts/told";
import { showHour } from "@/lib/domain/time/tomorrow";
import type { MailChoices } from "@/lib/server/queries/mail-choices";
import { MailForm } from "./mail-form";
import styles from "./token.module.css";

type Props = { readonly email: string; readonly timeZone: string; readonly mail: MailChoices };

/** What is mailed besides the notices, each kind by its own tick. */
export function MailPanel({ email, timeZone, mail: { choices, written, tomorrowHour } }: Props) {
  return (
    <Panel id="mail" title="Mail" lead={`Tick what is mailed to ${email} as well. The notices here stay in any case.`}>
      <div className={styles["panel"]}>
        {written && (
          <Notice action={<LinkButton href={paths.mails}>Read it</LinkButton>}>No mail server is set here: mail is written to a folder.</Notice>
        )}
        <MailForm
          choices={choices.map(({ kind, mailed }) => ({ kind, mailed, label: mailLabel(kind) }))}
          tomorrowHint={`Once a day, on the day before, from ${showHour(tomorrowHour)} on the workshop's clock (${timeZone}).`}
        />
      </div>
    </Panel>
  );
}
