import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import { Waiting } from "./waiting";

/** For managers: how many asks could be met, and wait for an answer. */
export function WishCount({ count }: { readonly count: number }) {
  if (count === 0) return null;
  return (
    <Waiting action={<LinkButton href={paths.clashes}>Answer</LinkButton>}>
      {count === 1 ? "One ask can be met: its weeks are free." : `${count} asks can be met: their weeks are free.`}
    </Waiting>
  );
}
