"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";

/** Fetches the page anew every so many milliseconds while it is in sight: what it shows is being worked out. */
export function LookAgain({ everyMs }: { readonly everyMs: number }) {
  const router = useRouter();
  useEffect(() => {
    const timer = setInterval(() => {
      if (document.visibilityState === "visible") router.refresh();
    }, everyMs);
    return () => clearInterval(timer);
  }, [router, everyMs]);
  return null;
}
