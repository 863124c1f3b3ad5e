"use client";

import { Button } from "./_components/button";
import { Page } from "./_components/page";
import { Trouble } from "./_components/trouble";

type ErrorProps = { readonly error: Error & { readonly digest?: string }; readonly reset: () => void };

/** A bug reached the page. The digest also stands in the server's log. */
export default function ErrorPage({ error, reset }: ErrorProps) {
  return (
    <Page>
      <Trouble title="This page did not work" id={error.digest} action={<Button onClick={reset}>Try once more</Button>} />
    </Page>
  );
}
