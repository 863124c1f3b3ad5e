import { Page } from "@/app/_components/page";
import { Slow } from "@/app/_components/slow";

export default function Loading() {
  return (
    <Page>
      <Slow text="Fetching the season’s plan…" />
    </Page>
  );
}
