import { paths } from "@/lib/contracts/paths";
import { Empty } from "./empty";
import { LinkButton } from "./link-button";

/** In place of a cost: there is no tariff, and who can set one. */
export function NoTariff({ mayManage }: { readonly mayManage: boolean }) {
  return (
    <Empty title="No tariff is set" action={mayManage ? <LinkButton href={paths.power}>Set the tariff</LinkButton> : undefined}>
      {mayManage ? "With the prices of the week, every firing shows its cost." : "The manager can set what electricity costs, under Workshop, Power; every firing then shows its cost."}
    </Empty>
  );
}
