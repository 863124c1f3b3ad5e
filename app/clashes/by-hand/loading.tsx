import { Page } from "@/app/_components/page";
import { Slow } from "@/app/_components/slow";

export default function Loading() {
  return (
    <Page>
      <Slow text="Working out what the edit costs, to the quarter hour…" />
    </Page>
  );
}
