import type { NextRequest } from "next/server";
import { feedFault, feedResponse, feedTooFast, noFeed } from "@/lib/server/feeds/feed-response";
import { readFeed } from "@/lib/server/feeds/read-feed";
import { logFault } from "@/lib/server/log";

type Context = { readonly params: Promise<{ readonly secret: string }> };

/** One calendar feed. Its secret is all that a calendar program can show; it stands in no line of the log. */
export async function GET(request: NextRequest, { params }: Context): Promise<Response> {
  const { secret } = await params;
  try {
    const read = await readFeed(secret);
    if (read.is === "too-fast") return feedTooFast(read.waitSeconds);
    return read.is === "none" ? noFeed() : feedResponse(read.text, request.headers.get("if-none-match"));
  } catch (error) {
    return feedFault(logFault("feed", error));
  }
}
