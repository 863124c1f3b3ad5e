import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { DataTable, type Column } from "@/app/_components/data-table";
import { Empty } from "@/app/_components/empty";
import { paths } from "@/lib/contracts/paths";
import { showInterval, showTime } from "@/lib/domain/time/show-time";
import type { KilnWallScreen, WallFiring } from "@/lib/server/queries/kiln-wall";

type Line = WallFiring & { readonly ask: boolean };

type ListProps = {
  readonly wall: KilnWallScreen;
  readonly timeZone: string;
  /** Whether this person settles clashes, and so is led to them. */
  readonly settles: boolean;
};

const STATUS_WORDS = { held: "held", planned: "planned", started: "firing now", done: "done" } as const;

/** All that is on the wall in words, in order of time: for phones, for print and for whoever cannot see the picture. */
export function FiringList({ wall, timeZone, settles }: ListProps) {
  const lines: readonly Line[] = [
    ...wall.bars.map((bar) => ({ ...bar, ask: false })),
    ...wall.ghosts.map((ghost) => ({ ...ghost, ask: true })),
  ].sort((a, b) => a.startMs - b.startMs);
  return (
    <DataTable
      caption="Firings and asks in these weeks"
      columns={columns({ wall, timeZone, settles })}
      rows={lines}
      rowKey={(line) => line.id}
      rowTone={(line) => (line.trouble === undefined ? "plain" : "trouble")}
      empty={<Empty title="Nothing is booked in these weeks">Every kiln is free. Describe a casting and find time for it, and its firing stands here.</Empty>}
    />
  );
}

function columns({ wall, timeZone, settles }: ListProps): readonly Column<Line>[] {
  const kilns = new Map(wall.kilns.map((kiln) => [kiln.id, kiln.name]));
  return [
    { key: "title", title: "Firing", cell: (line) => <Title line={line} /> },
    { key: "who", title: "Whose", cell: (line) => (line.mine ? `${line.who} (you)` : line.who) },
    { key: "kiln", title: "Kiln", cell: (line) => kilns.get(line.kilnId) ?? "retired kiln" },
    { key: "when", title: "Kiln held", cell: (line) => <time>{when(line, timeZone)}</time> },
    { key: "state", title: "State", cell: (line) => <State line={line} settles={settles} timeZone={timeZone} /> },
  ];
}

function Title({ line }: { readonly line: Line }) {
  if (line.href.startsWith("#")) return <span id={line.href.slice(1)}>{line.title}</span>;
  return <Link href={line.href}>{line.title}</Link>;
}

type StateProps = { readonly line: Line; readonly settles: boolean; readonly timeZone: string };

function State({ line, settles, timeZone }: StateProps) {
  const until = line.heldUntilMs === undefined ? "" : ` until ${showTime(Temporal.Instant.fromEpochMilliseconds(line.heldUntilMs), timeZone)}`;
  const word = line.ask ? "ask, nothing held" : `${STATUS_WORDS[line.status]}${until}`;
  return (
    <>
      <Badge tone={line.status === "started" ? "strong" : "quiet"}>{word}</Badge>
      {line.trouble !== undefined && (
        <>
          {" "}
          <Badge tone="trouble">clash</Badge> {line.trouble} {settles && <Link href={paths.clashes}>settle</Link>}
        </>
      )}
    </>
  );
}

function when(line: Line, timeZone: string): string {
  const at = (ms: number) => Temporal.Instant.fromEpochMilliseconds(ms);
  return showInterval({ start: at(line.startMs), end: at(line.endMs) }, timeZone);
}
