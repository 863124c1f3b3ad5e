"use client";

import { signOut } from "next-auth/react";
import { paths } from "@/lib/contracts/paths";

export function SignOutButton() {
  return (
    <button type="button" onClick={() => void signOut({ callbackUrl: paths.signIn })}>
      Sign out
    </button>
  );
}
