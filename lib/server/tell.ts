import type { Temporal } from "temporal-polyfill";
import { TOLD, usuallyMailed, type ToldKind } from "@/lib/contracts/told";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { env } from "@/lib/server/env";
import { letter } from "@/lib/server/mail/words";
import { mailReaders, type MailReader } from "@/lib/server/rows/mail-readers";
import type { Prisma } from "@/lib/server/prisma-client/client";
import type { Who } from "@/lib/server/who";

/** A command's own context, or what a job knows: the workshop, and no person. */
export type Telling = Pick<Ctx, "tx" | "now"> & { readonly who: Pick<Who, "workshopId" | "workshopName" | "timeZone"> };

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
  const { workshopId } = who;
  const createdAt = toDate(now);
  const notices = all.flatMap((news) => [...new Set(news.to)].map((memberId) => ({ workshopId, memberId, text: withReason(news.text, news.reason), href: news.href, createdAt })));
  await tx.notice.createMany({ data: notices });
  const mails: Prisma.MailCreateManyInput[] = [];
  for (const kind of new Set(all.map((news) => news.kind))) {
    const ofKind = all.filter((news) => news.kind === kind);
    const readers = await mailReaders(tx, { memberIds: [...new Set(ofKind.flatMap(({ to }) => to))], kind, usually: (roles) => usuallyMailed(kind, roles) });
    for (const news of ofKind) mails.push(...readers.filter(({ memberId }) => news.to.includes(memberId)).map((reader) => mailOf(telling, news, reader)));
  }
  if (mails.length > 0) await tx.mail.createMany({ data: mails });
}

function mailOf({ who, now }: Telling, { kind, text: sentence, reason, href, until }: News, { memberId, name, email }: MailReader): Prisma.MailCreateManyInput {
  const { subject, todo } = TOLD[kind];
  const said = [withReason(sentence, reason)];
  return {
    workshopId: who.workshopId,
    memberId,
    address: email,
    kind,
    subject: `${subject} (${who.workshopName})`,
    body: letter({ ...who, name, said, todo, href, publicUrl: env().publicUrl }),
    createdAt: toDate(now),
    uselessAt: until === undefined ? null : toDate(until),
  };
}

function withReason(text: string, reason = ""): string {
  return reason === "" ? text : `${text.replace(/\.$/, "")}: ${reason}`;
}
