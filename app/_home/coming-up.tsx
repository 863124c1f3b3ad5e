import { Panel } from "@/app/_components/panel";
import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import { CastingTable } from "@/app/castings/_components/casting-table";
import type { CastingLine } from "@/lib/server/rows/castings-with-next";

/** The next dates of one's own runs. */
export function ComingUp({ castings, timeZone }: { readonly castings: readonly CastingLine[]; readonly timeZone: string }) {
  const dated = castings.filter((line) => line.atMs !== null && line.step !== "opened").sort((a, b) => (a.atMs ?? 0) - (b.atMs ?? 0));
  if (dated.length === 0) return null;
  return (
    <Panel title="Next for your castings" actions={<LinkButton href={paths.castings}>All castings</LinkButton>}>
      <CastingTable castings={dated.slice(0, 6)} timeZone={timeZone} withOwner={false} />
    </Panel>
  );
}
