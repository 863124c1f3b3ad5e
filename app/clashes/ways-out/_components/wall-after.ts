import type { KilnWallScreen, WallFiring } from "@/lib/server/queries/kiln-wall";
import type { WayOut } from "@/lib/server/ways-out/ways-out";

/** The wall as it would be: runs at their new places, asks that are booked among them. */
export function wallAfter(wall: KilnWallScreen, { times }: WayOut): KilnWallScreen {
  const moved = (bar: WallFiring): WallFiring => {
    const time = times.find(({ runId }) => runId === bar.id);
    if (time === undefined) return bar;
    const { trouble: _settled, ...rest } = bar;
    const [startMs, endMs] = [Date.parse(time.kilnFrom), Date.parse(time.kilnTo)];
    const shift = startMs - bar.startMs;
    return { ...rest, kilnId: time.kilnId, startMs, endMs, segments: bar.segments.map((one) => ({ ...one, startMs: one.startMs + shift, endMs: Math.min(endMs, one.endMs + shift) })) };
  };
  const isBooked = ({ id }: WallFiring): boolean => times.some(({ runId }) => runId === id);
  return { ...wall, bars: [...wall.bars, ...wall.ghosts.filter(isBooked)].map(moved), ghosts: wall.ghosts.filter((ghost) => !isBooked(ghost)) };
}
