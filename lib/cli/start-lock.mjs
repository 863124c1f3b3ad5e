// One Lehrbook per folder: two would run two servers on one set of data.
import { linkSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { Trouble } from "./bootstrap.mjs";

/** When a process began, in the system's ticks, so that a number used again is not taken for the same process. */
function beganAt(pid) {
  try {
    return readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1).split(" ")[19];
  } catch {
    return undefined;
  }
}

function isRunning({ pid, began }) {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
  } catch (error) {
    if (error.code !== "EPERM") return false;
  }
  return began === undefined || beganAt(pid) === began;
}

function readHolder(file) {
  try {
    return JSON.parse(readFileSync(file, "utf8"));
  } catch {
    return undefined;
  }
}

/** Who runs from this folder now, if anybody does. */
export function currentHolder(folder) {
  const holder = readHolder(path.join(folder, "start.lock"));
  return holder !== undefined && isRunning(holder) ? holder : undefined;
}

/** Between reading a stale lock and moving it another start may have put a live one in its place: that goes back. */
function moveStaleAside(file, aside) {
  try {
    renameSync(file, aside);
    const moved = readHolder(aside);
    if (moved !== undefined && isRunning(moved)) linkSync(aside, file);
  } catch (error) {
    if (error.code !== "ENOENT" && error.code !== "EEXIST") throw error;
  }
  rmSync(aside, { force: true });
}

/**
 * Takes the folder's lock or says who has it. A lock whose process is gone is taken over: moving it aside is the one
 * step only one of several can succeed at.
 * @returns {() => void} gives the lock back
 */
export function takeLock(folder, port) {
  mkdirSync(folder, { recursive: true });
  const file = path.join(folder, "start.lock");
  const mine = `${file}.${process.pid}`;
  writeFileSync(mine, JSON.stringify({ pid: process.pid, began: beganAt(process.pid), port }));
  try {
    for (let attempt = 0; attempt < 20; attempt += 1) {
      try {
        linkSync(mine, file);
        return () => rmSync(file, { force: true });
      } catch (error) {
        if (error.code !== "EEXIST") throw error;
      }
      const holder = readHolder(file);
      if (holder !== undefined && isRunning(holder)) break;
      moveStaleAside(file, `${mine}.stale`);
    }
  } finally {
    rmSync(mine, { force: true });
  }
  const holder = readHolder(file);
  const which = holder === undefined ? "" : ` (process ${holder.pid}, port ${holder.port})`;
  throw new Trouble(`Lehrbook is already starting or running from this folder${which}: stop that one first.`);
}
