"use client";

import { useRef, useState } from "react";
import { Button } from "@/app/_components/button";
import { controlAttributes, FieldFrame } from "@/app/_components/field-frame";
import fieldStyles from "@/app/_components/field.module.css";
import { Notice } from "@/app/_components/notice";
import type { MadeFeed } from "@/lib/contracts/feeds";
import styles from "./feed-panel.module.css";

const FIELD = { name: "feedAddress", label: "Address, shown this once", hint: "In your calendar program choose to subscribe to a calendar by its address, and paste this. It asks again by itself, most of them within a day." } as const;
const SAID = { copied: "Copied.", selected: "This browser does not let the page copy. The address is selected: copy it with Ctrl+C or ⌘C." } as const;

/** The address just made, to be copied now: it is kept nowhere and cannot be shown again. */
export function MadeAddress({ made: { address, replaced } }: { readonly made: MadeFeed }) {
  const field = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<keyof typeof SAID>();
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(address);
      setSaid("copied");
    } catch {
      field.current?.select();
      setSaid("selected");
    }
  };
  return (
    <div className={styles["made"]}>
      <Notice tone="done">{replaced ? "The new address is made; the old one opens nothing any more." : "The address is made."} Copy it now: it cannot be shown again.</Notice>
      <FieldFrame {...FIELD}>
        <div className={styles["copy"]}>
          <input {...controlAttributes(FIELD)} ref={field} readOnly value={address} onFocus={(event) => event.target.select()} className={fieldStyles["control"]} />
          <Button look="main" onClick={() => void copy()}>
            Copy
          </Button>
        </div>
      </FieldFrame>
      <p aria-live="polite" className={styles["said"]}>
        {said !== undefined && SAID[said]}
      </p>
    </div>
  );
}
