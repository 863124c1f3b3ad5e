import type { Metadata } from "next";
import Link from "next/link";
import { Page, PageHead } from "@/app/_components/page";
import { paths } from "@/lib/contracts/paths";
import { ForgottenForm } from "./forgotten-form";

export const metadata: Metadata = { title: "New password" };

export default function ForgottenPage() {
  return (
    <Page narrow>
      <PageHead title="New password" lead="A link to set one is mailed to you." kicker={<Link href={paths.signIn}>Sign in</Link>} />
      <ForgottenForm />
    </Page>
  );
}
