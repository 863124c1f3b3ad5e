import type { NextRequest } from "next/server";
import { feedFault, feedResponse, noFeed } from "@/lib/server/feeds/feed-response";
import { readFeed } from "@/lib/server/feeds/read-feed";
import { logFault } from "@/lib/server/log";

type Context = { readonly params: Promise<{ readonly secret: string }> };

/** One calendar feed. Its secret is all that a calendar program can show; it stands in no line of the log. */
export async function GET(request: NextRequest, { params }: Context): Promise<Response> {
  const { secret } = await params;
  try {
    const calendar = await readFeed(secret);
    return calendar === undefined ? noFeed() : feedResponse(calendar, request.headers.get("if-none-match"));
  } catch (error) {
    return feedFault(logFault("feed", error));
  }
}
