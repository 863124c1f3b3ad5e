import type { Temporal } from "temporal-polyfill";
import { TOLD, usuallyMailed, type ToldKind } from "@/lib/contracts/told";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
import { env } from "@/lib/server/env";
import { letter } from "@/lib/server/mail/words";
import { mailReaders } from "@/lib/server/rows/mail-readers";
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
export async function tell(telling: Telling, news: News): Promise<void> {
  const { tx, now, who } = telling;
  const { workshopId } = who;
  const to = [...new Set(news.to)];
  const text = withReason(news.text, news.reason);
  const createdAt = toDate(now);
  await tx.notice.createMany({ data: to.map((memberId) => ({ workshopId, memberId, text, href: news.href, createdAt })) });
  const readers = await mailReaders(tx, { memberIds: to, kind: news.kind, usually: (roles) => usuallyMailed(news.kind, roles) });
  if (readers.length === 0) return;
  const { subject, todo } = TOLD[news.kind];
  const { publicUrl } = env();
  await tx.mail.createMany({
    data: readers.map(({ memberId, name, email }) => ({
      workshopId,
      memberId,
      address: email,
      kind: news.kind,
      subject: `${subject} (${who.workshopName})`,
      body: letter({ ...who, name, said: [text], todo, href: news.href, publicUrl }),
      createdAt,
      uselessAt: news.until === undefined ? null : toDate(news.until),
    })),
  });
}

function withReason(text: string, reason = ""): string {
  return reason === "" ? text : `${text.replace(/\.$/, "")}: ${reason}`;
}
