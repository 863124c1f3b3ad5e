import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import { Waiting } from "./waiting";

/** For managers: how many wishes could be met, and wait for an answer. */
export function WishCount({ count }: { readonly count: number }) {
  if (count === 0) return null;
  return (
    <Waiting action={<LinkButton href={paths.clashes}>Answer</LinkButton>}>
      {count === 1 ? "One wish can be met: its weeks are free." : `${count} wishes can be met: their weeks are free.`}
    </Waiting>
  );
}
