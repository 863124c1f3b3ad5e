"use client";

import { CopyOnce } from "@/app/_components/copy-once";
import { Notice } from "@/app/_components/notice";
import type { MadeFeed } from "@/lib/contracts/feeds";
import styles from "./feed-panel.module.css";

const HINT = "In your calendar program choose to subscribe to a calendar by its address, and paste this. It asks again by itself, most of them within a day.";

/** The address just made, to be copied now: it is kept nowhere and cannot be shown again. */
export function MadeAddress({ made: { address, replaced } }: { readonly made: MadeFeed }) {
  return (
    <div className={styles["made"]}>
      <Notice tone="done">{replaced ? "The new address is made; the old one opens nothing any more." : "The address is made."} Copy it now: it cannot be shown again.</Notice>
      <CopyOnce name="feedAddress" label="Address, shown this once" hint={HINT} value={address} what="The address" />
    </div>
  );
}
