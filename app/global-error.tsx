"use client";

import "./_styles/base.css";
import ErrorPage from "./error";

/** When even the head of the page could not be made, e.g. because the database does not answer. */
export default function GlobalError(props: Parameters<typeof ErrorPage>[0]) {
  return (
    <html lang="en">
      <body>
        <title>Lehrbook</title>
        <ErrorPage {...props} />
      </body>
    </html>
  );
}
