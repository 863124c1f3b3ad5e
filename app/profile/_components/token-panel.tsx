import { Temporal } from "temporal-polyfill";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { DataTable } from "@/app/_components/data-table";
import { Empty } from "@/app/_components/empty";
import { Panel } from "@/app/_components/panel";
import { showTimeWithYear } from "@/lib/domain/time/show-time";
import { paths } from "@/lib/contracts/paths";
import type { TokenLine } from "@/lib/server/queries/own-tokens";
import { revokeTokenAction } from "../actions";
import { MakeTokenForm } from "./make-token-form";
import styles from "./token.module.css";

type Props = { readonly tokens: readonly TokenLine[]; readonly timeZone: string };

/** Tokens for scripts: those that are out, and a form for another. */
export function TokenPanel({ tokens, timeZone }: Props) {
  return (
    <Panel
      title="Scripts"
      lead={<>With a token a script of yours can read, plan and book here in your name, never more than your roles allow. What it can ask for: <a href={paths.openApi}>{paths.openApi}</a></>}
    >
      <div className={styles["panel"]}>
        <DataTable
          caption="Your tokens"
          rows={tokens}
          rowKey={(one) => one.tokenId}
          empty={<Empty title="No script has a token">Make one below; it works until you revoke it.</Empty>}
          columns={[
            { key: "name", title: "Name", cell: (one) => <>{one.name} <code className={styles["prefix"]}>{one.prefix}…</code></> },
            { key: "scopes", title: "May", cell: (one) => one.scopes.join(", ") },
            { key: "made", title: "Made", cell: (one) => showTimeWithYear(instant(one.createdMs), timeZone) },
            { key: "used", title: "Last used", cell: (one) => (one.lastUsedMs === null ? "never" : showTimeWithYear(instant(one.lastUsedMs), timeZone)) },
            { key: "revoke", title: "Revoke", untitled: true, cell: (one) => <Revoke token={one} /> },
          ]}
        />
        <MakeTokenForm />
      </div>
    </Panel>
  );
}

function Revoke({ token }: { readonly token: TokenLine }) {
  return (
    <ConfirmWithReason trigger="Revoke" look="trouble" title={`Revoke ${token.name}?`} confirmText="Revoke it" reason="none" values={{ tokenId: token.tokenId }} action={revokeTokenAction}>
      <p>The script that uses {token.prefix}… is refused from its next request on. This cannot be taken back.</p>
    </ConfirmWithReason>
  );
}

function instant(ms: number): Temporal.Instant {
  return Temporal.Instant.fromEpochMilliseconds(ms);
}
