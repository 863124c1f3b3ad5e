"use client";

import { CopyOnce } from "@/app/_components/copy-once";
import { Notice } from "@/app/_components/notice";
import type { MadeToken } from "../actions";
import styles from "./token.module.css";

/** The token just made, to be copied now: only its hash is kept, so it cannot be shown again. */
export function ShownToken({ made: { name, token } }: { readonly made: MadeToken }) {
  return (
    <div className={styles["made"]}>
      <Notice tone="done">The token of {name} is made. Copy it now: it cannot be shown again.</Notice>
      <CopyOnce name="token" label="Token, shown this once" hint="Keep it like a password. The script sends it with every request." value={token} what="The token" />
    </div>
  );
}
