import { readFile, statfs } from "node:fs/promises";
import path from "node:path";

export type Fault = {
  /** One sentence for the person at the terminal. */
  readonly sentence: string;
  /** Whether trying again, on another port or a moment later, may help. */
  readonly passing: boolean;
};

type Place = { readonly dataFolder: string; readonly logFile: string };

const LAST_WORDS = /(?:(?:FATAL|PANIC|initdb: error|postgres: error): +|(?=could not ))(.*)/;

/** With less than this left, PostgreSQL cannot even write down that the disk is full. */
const FULL_BELOW_BYTES = 20_000_000;

/** Reads why PostgreSQL did not start from what it wrote since `from` bytes. */
export async function startFault(place: Place, from: number): Promise<Fault> {
  const disk = await statfs(path.dirname(place.dataFolder)).catch(() => undefined);
  if (disk !== undefined && disk.bavail * disk.bsize < FULL_BELOW_BYTES) return readFault("No space left on device", place);
  const log = await readFile(place.logFile);
  return readFault(log.subarray(from).toString("utf8"), place);
}

/** The part of {@link startFault} that only reads text. */
export function readFault(log: string, { dataFolder, logFile }: Place): Fault {
  if (/No space left on device|Disk quota exceeded/.test(log)) {
    return { passing: false, sentence: `The disk that holds ${dataFolder} is full: free some space and start again.` };
  }
  if (/password authentication failed/.test(log)) {
    return { passing: false, sentence: `The data in ${dataFolder} was made with another password than the one in secrets.json: put the matching secrets.json back.` };
  }
  if (/could not bind|Address already in use/.test(log)) {
    return { passing: true, sentence: "PostgreSQL found no free port on 127.0.0.1." };
  }
  if (/pre-existing shared memory block/.test(log)) {
    return { passing: true, sentence: `An earlier PostgreSQL still holds ${dataFolder}: wait a moment and start again.` };
  }
  if (/incompatible with server|was initialized by PostgreSQL version/.test(log)) {
    return { passing: false, sentence: `The data in ${dataFolder} belongs to another PostgreSQL version: restore a backup into a new folder.` };
  }
  if (/Permission denied/.test(log)) {
    return { passing: false, sentence: `PostgreSQL may not read ${dataFolder}: it belongs to another user (details: ${logFile}).` };
  }
  const lines = log.split("\n").filter((line) => LAST_WORDS.test(line));
  const words = lines.find((line) => /FATAL|PANIC/.test(line)) ?? lines[0];
  const said = words === undefined ? "" : ` (PostgreSQL says: ${LAST_WORDS.exec(words)?.[1]?.trim() ?? words})`;
  const advice = "restore a backup, or move it away to begin with an empty one";
  return { passing: false, sentence: `The data folder ${dataFolder} cannot be used and may be damaged${said}: ${advice}; details are in ${logFile}.` };
}
