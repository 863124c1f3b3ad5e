"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import { paths } from "@/lib/contracts/paths";
import styles from "../workshop.module.css";

const LINKS = [
  [paths.people, "People"],
  [paths.equipment, "Equipment"],
  [paths.hours, "Hours"],
  [paths.power, "Power"],
  [paths.record, "Record"],
] as const;

export function WorkshopNav() {
  const here = usePathname();
  return (
    <nav aria-label="Workshop" className={styles["nav"]}>
      {LINKS.map(([href, label]) => (
        <Link key={href} href={href} aria-current={here.startsWith(href) ? "page" : undefined}>
          {label}
        </Link>
      ))}
    </nav>
  );
}
