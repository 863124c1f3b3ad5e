import type { Move } from "@/lib/domain/settling/clash/settlement";
import type { KilnWallScreen, WallFiring } from "@/lib/server/queries/kiln-wall";
import type { CarriedOut } from "@/lib/server/ways-out/write-moves";

type Settled = { readonly times: readonly CarriedOut[]; readonly moves: readonly Pick<Move, "runId" | "title" | "memberName">[] };

/** The wall as it would be: runs at their new places, asks that are booked among them. */
export function wallAfter(wall: KilnWallScreen, { times, moves }: Settled): KilnWallScreen {
  const moved = (bar: WallFiring): WallFiring => {
    const time = times.find(({ runId }) => runId === bar.id);
    const { trouble: _settled, ...rest } = bar;
    // A settlement is complete: of what may move nothing clashes any more.
    if (time === undefined) return bar.status === "planned" ? rest : bar;
    const [startMs, endMs] = [Date.parse(time.kilnFrom), Date.parse(time.kilnTo)];
    const shift = startMs - bar.startMs;
    return { ...rest, kilnId: time.kilnId, startMs, endMs, segments: bar.segments.map((one) => ({ ...one, startMs: one.startMs + shift, endMs: Math.min(endMs, one.endMs + shift) })) };
  };
  const isBooked = ({ id }: WallFiring): boolean => times.some(({ runId }) => runId === id);
  const drawn = [...wall.bars, ...wall.ghosts.filter(isBooked)];
  const fresh = times.filter(({ runId }) => !drawn.some(({ id }) => id === runId)).map((time) => freshBar(time, moves));
  return { ...wall, bars: [...drawn.map(moved), ...fresh], ghosts: wall.ghosts.filter((ghost) => !isBooked(ghost)) };
}

/** Asked for without weeks, or out of sight before: nothing of it is drawn yet. */
function freshBar({ runId, kilnId, kilnFrom, kilnTo }: CarriedOut, moves: Settled["moves"]): WallFiring {
  const { title = "", memberName: who = "" } = moves.find((move) => move.runId === runId) ?? {};
  return { id: runId, kilnId, startMs: Date.parse(kilnFrom), endMs: Date.parse(kilnTo), title, who, mine: false, status: "planned", href: `#${runId}`, segments: [] };
}
