"use client";

import { useState } from "react";
import { Button } from "@/app/_components/button";
import { Notice } from "@/app/_components/notice";
import type { MadeToken } from "../actions";
import styles from "./token.module.css";

/** The token, this once. A browser may forbid copying; then it is selected by hand. */
export function ShownToken({ made: { name, token } }: { readonly made: MadeToken }) {
  const [copied, setCopied] = useState<boolean>();
  const copy = () => {
    const done = navigator.clipboard?.writeText(token) ?? Promise.reject(new Error("no clipboard"));
    done.then(() => setCopied(true), () => setCopied(false));
  };
  return (
    <Notice tone="done" action={<Button onClick={copy}>{copied === true ? "Copied" : "Copy"}</Button>}>
      The token of {name}, shown this once: <code className={styles["token"]}>{token}</code>
      {copied === false && " It cannot be copied from here; select it and copy it by hand."}
    </Notice>
  );
}
