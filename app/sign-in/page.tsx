import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { DEMO_PASSWORD, DEMO_SIGN_INS } from "@/lib/contracts/demo-sign-ins";
import { paths } from "@/lib/contracts/paths";
import { sameSitePath } from "@/lib/contracts/same-site-path";
import { env } from "@/lib/server/env";
import { currentWho } from "@/lib/server/session";
import { SignInForm } from "./sign-in-form";

export const metadata: Metadata = { title: "Sign in" };

export default async function SignInPage({ searchParams }: { readonly searchParams: Promise<{ readonly from?: string; readonly done?: string }> }) {
  const { from: wish, done } = await searchParams;
  const from = sameSitePath(wish);
  if ((await currentWho()) !== null) redirect(from);
  return (
    <Page narrow>
      <PageHead title="Sign in" lead="Kilns, steamers and hands of your workshop, booked from a firing plan." />
      {done === "password" && <Notice tone="done">The new password is set, and every earlier session has ended. Sign in with it.</Notice>}
      <SignInForm from={from} />
      <p>
        <Link href={paths.forgotten}>Forgotten the password?</Link> New here? Ask your workshop’s manager for an invitation.
      </p>
      {env().demo && <DemoSignIns />}
    </Page>
  );
}

/** Only in the demo: whom to try, and as what. */
function DemoSignIns() {
  return (
    <Panel tone="quiet" title="Demo workshop" lead={`The password of everybody here: ${DEMO_PASSWORD}`}>
      <ul>
        {DEMO_SIGN_INS.map(({ role, email }) => (
          <li key={role}>
            {role}: {email}
          </li>
        ))}
      </ul>
    </Panel>
  );
}
