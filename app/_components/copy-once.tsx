"use client";

import { useRef, useState } from "react";
import { Button } from "./button";
import styles from "./copy-once.module.css";
import { controlAttributes, FieldFrame, type FieldProps } from "./field-frame";
import fieldStyles from "./field.module.css";

type CopyOnceProps = Pick<FieldProps, "name" | "label" | "hint"> & {
  readonly value: string;
  /** How the value is called, at the beginning of a sentence. */
  readonly what: string;
};

/** A secret that was just made, to be copied now. Where a browser lets no page copy, it is selected for the person. */
export function CopyOnce({ value, what, ...field }: CopyOnceProps) {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState("");
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(value);
      setSaid("Copied.");
    } catch {
      input.current?.select();
      setSaid(`This browser does not let the page copy. ${what} is selected: copy it with Ctrl+C or ⌘C.`);
    }
  };
  return (
    <div className={styles["once"]}>
      <FieldFrame {...field}>
        <div className={styles["copy"]}>
          <input {...controlAttributes(field)} ref={input} readOnly value={value} onFocus={(event) => event.target.select()} className={fieldStyles["control"]} />
          <Button look="main" onClick={() => void copy()}>
            Copy
          </Button>
        </div>
      </FieldFrame>
      <p aria-live="polite" className={styles["said"]}>
        {said}
      </p>
    </div>
  );
}
