import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import { Waiting } from "./waiting";

/** For managers: how many things on the calendar cannot stand. */
export function ClashCount({ count }: { readonly count: number }) {
  if (count === 0) return null;
  return (
    <Waiting tone="trouble" action={<LinkButton href={paths.clashes}>Settle</LinkButton>}>
      {count === 1 ? "One thing on the calendar cannot stand." : `${count} things on the calendar cannot stand.`}
    </Waiting>
  );
}
