import type { Metadata } from "next";
import Link from "next/link";
import { Empty } from "@/app/_components/empty";
import { LinkButton } from "@/app/_components/link-button";
import { Page, PageHead } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";
import { pageWho } from "@/lib/server/page-who";
import { listCastings } from "@/lib/server/queries/castings";
import { CastingTable } from "./_components/casting-table";
import styles from "./castings.module.css";

export const metadata: Metadata = { title: "Castings" };

type Props = { readonly searchParams: Promise<{ readonly of?: string }> };

export default async function CastingsPage({ searchParams }: Props) {
  const who = await pageWho("write-castings", paths.castings);
  const { of } = await searchParams;
  const { castings, maySeeAll, showsAll } = await listCastings(who, { all: of === "everybody" });
  const waiting = castings.filter((line) => line.step === "book-run").length;
  return (
    <Page>
      <PageHead
        title="Castings"
        lead={castings.length === 0 ? undefined : `${castings.length === 1 ? "One casting" : `${castings.length} castings`}${waiting > 0 ? `, ${waiting} without a run` : ""}.`}
        actions={<LinkButton href={paths.newCasting} look="main">Describe a casting</LinkButton>}
      />
      {maySeeAll && (
        <nav className={styles["whose"]} aria-label="Whose castings">
          <Link href={paths.castings} aria-current={showsAll ? undefined : "page"}>Mine</Link>
          <Link href={`${paths.castings}?of=everybody`} aria-current={showsAll ? "page" : undefined}>Everybody’s</Link>
        </nav>
      )}
      {castings.length === 0 ? (
        <Empty title={showsAll ? "Nobody has described a casting yet" : "You have no castings yet"} action={<LinkButton href={paths.newCasting}>Describe the first one</LinkButton>}>
          Weigh the wax, measure the thickest part: you get the glass to order, the mould to mix and the kiln-weeks it needs, and can book them.
        </Empty>
      ) : (
        <CastingTable castings={castings} timeZone={who.timeZone} withOwner={showsAll} />
      )}
    </Page>
  );
}
