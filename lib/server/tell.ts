import type { ToldKind } from "@/lib/contracts/told";
import { toDate } from "@/lib/server/clock";
import type { Ctx } from "@/lib/server/command";
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
};

/** Tells members something, in the transaction of the change it tells of: without the change, nobody hears of it. */
export async function tell({ tx, now, who }: Telling, news: News): Promise<void> {
  const { workshopId } = who;
  const text = withReason(news.text, news.reason);
  await tx.notice.createMany({
    data: [...new Set(news.to)].map((memberId) => ({ workshopId, memberId, text, href: news.href, createdAt: toDate(now) })),
  });
}

function withReason(text: string, reason = ""): string {
  return reason === "" ? text : `${text.replace(/\.$/, "")}: ${reason}`;
}
