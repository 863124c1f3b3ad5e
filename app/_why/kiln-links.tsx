import Link from "next/link";
import { paths } from "@/lib/contracts/paths";
import styles from "./why-page.module.css";

type KilnLinksProps = { readonly castingId: string; readonly kilns: readonly { readonly id: string; readonly name: string }[]; readonly shown: string | null };

/** The same casting in another kiln, or in one without limits. */
export function KilnLinks({ castingId, kilns, shown }: KilnLinksProps) {
  const places = [{ id: null, name: "Ideal kiln" }, ...kilns];
  return (
    <nav aria-label="In which kiln" className={styles["kilns"]}>
      {places.map(({ id, name }) => (
        <Link key={name} href={paths.castingWhy(castingId, id ?? undefined)} aria-current={id === shown ? "page" : undefined} className={styles["kiln"]}>
          {name}
        </Link>
      ))}
    </nav>
  );
}
