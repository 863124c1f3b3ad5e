import { env } from "@/lib/server/env";
import { query } from "@/lib/server/query";
import { choicesOf, type MailChoice } from "@/lib/server/rows/mail-choices";

export type MailChoices = {
  readonly choices: readonly MailChoice[];
  /** Mails are written to a folder here, and there is a page that shows them. */
  readonly written: boolean;
  /** From which full hour of the workshop's clock tomorrow is mailed. */
  readonly tomorrowHour: number;
};

/** What is mailed to this person. */
export const mailChoices = query<undefined, MailChoices>({
  name: "mail-choices",
  needs: "see-workshop",
  run: async ({ who, tx }) => {
    const { tomorrowHour } = await tx.workshop.findFirstOrThrow({ select: { tomorrowHour: true } });
    return { choices: await choicesOf(tx, who), written: env().mailPage, tomorrowHour };
  },
});
