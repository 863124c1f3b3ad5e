import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import styles from "@/app/_sharing/sharing.module.css";
import { showTime } from "@/lib/domain/time/show-time";
import type { JoiningPerson, JoiningScreen } from "@/lib/server/queries/joining";
import { withdrawAction } from "../actions";
import { AnswerForm } from "./answer-form";

const SAYS: Readonly<Record<JoiningPerson["says"], { readonly word: string; readonly yours: string; readonly tone: "strong" | "needsYou" | "plain" | "trouble" }>> = {
  proposes: { word: "proposes it", yours: "propose it", tone: "plain" },
  asked: { word: "has not answered", yours: "have not answered", tone: "needsYou" },
  accepts: { word: "accepts", yours: "accept", tone: "strong" },
  declines: { word: "declines", yours: "decline", tone: "trouble" },
};

type Props = { readonly screen: JoiningScreen; readonly until: string; readonly timeZone: string };

/** Who says what, and what this person may do about it. */
export function AnswerPanel({ screen, until, timeZone }: Props) {
  const { joiningId, over, people, waitsForYou, yours, castingTitle } = screen;
  const lead = over === null ? `Wanted from everybody in the firing by ${until}. One no is enough to leave it as it is.` : undefined;
  return (
    <Panel title={waitsForYou ? "Your answer is wanted" : "Answers"} lead={lead} tone={waitsForYou ? "needsYou" : "plain"}>
      <Stack>
        <ul className={styles["people"]}>
          {people.map((person) => (
            <li key={person.name}>
              <span>{person.you ? "You" : person.name}</span>
              <Badge tone={SAYS[person.says].tone}>{person.you ? SAYS[person.says].yours : SAYS[person.says].word}</Badge>
              {person.at !== null && <span className={styles["soft"]}>{showTime(Temporal.Instant.from(person.at), timeZone)}</span>}
            </li>
          ))}
        </ul>
        {over === null && waitsForYou && <AnswerForm joiningId={joiningId} />}
        {over === null && yours && (
          <div>
            <ConfirmWithReason trigger="Take the proposal back" title={`Take back that ${castingTitle} joins?`} confirmText="Take it back" reason="none" values={{ joiningId }} action={withdrawAction}>
              <p>Everybody asked is told. You can propose it again.</p>
            </ConfirmWithReason>
          </div>
        )}
      </Stack>
    </Panel>
  );
}
