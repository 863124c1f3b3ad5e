import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import { openClashCount } from "@/lib/server/queries/open-clashes";
import type { Who } from "@/lib/server/who";
import { Waiting } from "./waiting";

/** For managers: how many things on the calendar cannot stand. */
export async function ClashCount({ who }: { readonly who: Who }) {
  const count = await openClashCount(who, undefined);
  if (count === 0) return null;
  return (
    <Waiting tone="trouble" action={<LinkButton href={paths.clashes}>Settle</LinkButton>}>
      {count === 1 ? "One thing on the calendar cannot stand." : `${count} things on the calendar cannot stand.`}
    </Waiting>
  );
}
