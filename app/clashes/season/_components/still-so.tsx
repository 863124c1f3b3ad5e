import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import type { SeasonScreen } from "@/lib/server/queries/season";
import { clashGround } from "@/lib/server/ways-out/ways-out";
import type { Who } from "@/lib/server/who";

/** Says when the calendar has changed since a plan was made: it cannot be accepted any more. */
export async function StillSo({ who, screen }: { readonly who: Who; readonly screen: SeasonScreen }) {
  const now = await clashGround(who, { from: Temporal.PlainDate.from(screen.from), to: Temporal.PlainDate.from(screen.to) });
  if (now.fingerprint === screen.plan?.fingerprint) return null;
  return <Notice tone="needsYou" action={<LinkButton href="#plan-again">Plan again</LinkButton>}>The calendar has changed since this plan was made, so it cannot be accepted. Plan the season again; what is different is shown then.</Notice>;
}
