import { Page } from "@/app/_components/page";
import { Slow } from "@/app/_components/slow";

export default function Loading() {
  return (
    <Page>
      <Slow text="Joining the plans, and following each casting through the joined program. A few seconds…" />
    </Page>
  );
}
