import { Temporal } from "temporal-polyfill";
import { showTime } from "@/lib/domain/time/show-time";
import type { CastingLine } from "@/lib/server/rows/castings-with-next";

type NextStepProps = { readonly line: CastingLine; readonly timeZone: string };

/** What comes next for a casting, in one line. */
export function NextStep({ line, timeZone }: NextStepProps) {
  const text = nextStepText(line, timeZone);
  return line.overdue ? `${text}: overdue` : text;
}

export function nextStepText(line: CastingLine, timeZone: string): string {
  const { heldUntilMs } = line;
  if (heldUntilMs === null) return stepText(line, timeZone);
  return `Only held, until ${showTime(Temporal.Instant.fromEpochMilliseconds(heldUntilMs), timeZone)}: confirm it`;
}

function stepText({ step, atMs, kilnName }: CastingLine, timeZone: string): string {
  const when = atMs === null ? "" : ` ${showTime(Temporal.Instant.fromEpochMilliseconds(atMs), timeZone)}`;
  switch (step) {
    case "book-run":
      return "Book a run";
    case "asked":
      return `Kiln time asked for${kilnName === null ? "" : ` in ${kilnName}`}`;
    case "steam-out":
      return `Steam-out${when}`;
    case "load":
      return `Load into ${kilnName ?? "the kiln"}${when}`;
    case "in-kiln":
      return `In ${kilnName ?? "the kiln"} until${when}`;
    case "unload":
      return `Unload from ${kilnName ?? "the kiln"}${when}`;
    case "opened":
      return `Opened${when}`;
  }
}
