import { Page } from "./_components/page";
import { Slow } from "./_components/slow";

export default function Loading() {
  return (
    <Page>
      <Slow />
    </Page>
  );
}
