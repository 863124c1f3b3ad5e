import type { Temporal } from "temporal-polyfill";
import { TOLD, usuallyMailed, type ToldKind } from "@/lib/contracts/told";
import { toDate } from "@/lib/server/clock";
import type { CtxOf } from "@/lib/server/command";
import { env } from "@/lib/server/env";
import { letter } from "@/lib/server/mail/words";
import { mailReaders, type MailReader } from "@/lib/server/rows/mail-readers";
import { sendLater, sql, type Statements } from "@/lib/server/statements";
import type { Who } from "@/lib/server/who";

/** A command's own context, or what a job knows: the workshop, and no person. */
export type Telling = Pick<CtxOf<Statements>, "tx" | "now"> & { readonly who: Pick<Who, "workshopId" | "workshopName" | "timeZone"> };

export type News = {
  /** The members who are told, each once. Whether the person who acts is among them is for the caller to decide. */
  readonly to: readonly string[];
  readonly kind: ToldKind;
  /** One sentence that names the casting, the kiln and the times, and ends with a full stop. */
  readonly text: string;
  /** Where to look, from `paths`. */
  readonly href: string;
  /** Somebody's own words, put behind the sentence. */
  readonly reason?: string | undefined;
  /** When it is over, for instance an offer: a mail that was held up is not sent any more from then on. */
  readonly until?: Temporal.Instant | undefined;
};

/**
 * Tells members something, in the transaction of the change it tells of: a notice, and a mail to those who want this
 * kind mailed. Without the change, nobody hears of it.
 */
export function tell(telling: Telling, news: News): Promise<void> {
  return tellAll(telling, [news]);
}

/** Tells several things, each to its own members, in as few statements as one. */
export async function tellAll(telling: Telling, all: readonly News[]): Promise<void> {
  const { tx, now, who } = telling;
  const notices = all.flatMap((news) => [...new Set(news.to)].map((memberId) => ({ memberId, text: withReason(news.text, news.reason), href: news.href })));
  await sendLater(tx, sql`
    INSERT INTO notice (workshop_id, member_id, text, href, created_at)
    SELECT ${who.workshopId}::uuid, "memberId", text, href, ${toDate(now)}::timestamptz FROM jsonb_to_recordset(${JSON.stringify(notices)}::jsonb) AS n ("memberId" uuid, text text, href text)`);
  const mails: ReturnType<typeof mailOf>[] = [];
  for (const kind of new Set(all.map((news) => news.kind))) {
    const ofKind = all.filter((news) => news.kind === kind);
    const readers = await mailReaders(tx, { memberIds: [...new Set(ofKind.flatMap(({ to }) => to))], kind, usually: (roles) => usuallyMailed(kind, roles) });
    for (const news of ofKind) mails.push(...readers.filter(({ memberId }) => news.to.includes(memberId)).map((reader) => mailOf(telling, news, reader)));
  }
  if (mails.length > 0) await sendLater(tx, sql`
    INSERT INTO mail (workshop_id, member_id, address, kind, subject, body, created_at, useless_at)
    SELECT ${who.workshopId}::uuid, "memberId", address, kind, subject, body, ${toDate(now)}::timestamptz, "uselessAt"
      FROM jsonb_to_recordset(${JSON.stringify(mails)}::jsonb) AS m ("memberId" uuid, address text, kind text, subject text, body text, "uselessAt" timestamptz)`);
}

function mailOf({ who }: Telling, { kind, text: sentence, reason, href, until }: News, { memberId, name, email }: MailReader) {
  const { subject, todo } = TOLD[kind];
  const said = [withReason(sentence, reason)];
  return {
    memberId,
    address: email,
    kind,
    subject: `${subject} (${who.workshopName})`,
    body: letter({ ...who, name, said, todo, href, publicUrl: env().publicUrl }),
    uselessAt: until === undefined ? null : toDate(until),
  };
}

function withReason(text: string, reason = ""): string {
  return reason === "" ? text : `${text.replace(/\.$/, "")}: ${reason}`;
}
