"use client";

import { Button } from "./button";

/** Opens the browser's print dialog. */
export function PrintButton({ children = "Print" }: { readonly children?: string | undefined }) {
  return <Button onClick={() => window.print()}>{children}</Button>;
}
