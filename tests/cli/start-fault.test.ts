import { describe, expect, it } from "vitest";
import { readFault } from "@/lib/cli/embedded/start-fault";

const place = { dataFolder: "/data", logFile: "/logs/postgres.log" };

describe("why PostgreSQL did not start, in one sentence", () => {
  it.each([
    ['FATAL:  could not write to file "pg_wal/xlogtemp.7": No space left on device', "The disk that holds /data is full: free some space and start again."],
    ['FATAL:  password authentication failed for user "postgres"', "The data in /data was made with another password than the one in secrets.json: put the matching secrets.json back."],
    ["FATAL:  database files are incompatible with server", "The data in /data belongs to another PostgreSQL version: restore a backup into a new folder."],
    ['FATAL:  could not open file "base/1": Permission denied', "PostgreSQL may not read /data: it belongs to another user (details: /logs/postgres.log)."],
  ])("reads %s", (log, sentence) => {
    expect(readFault(log, place)).toEqual({ passing: false, sentence });
  });

  it("quotes PostgreSQL's first fatal line when the folder is damaged", () => {
    const log = "2026-01-01 LOG:  starting\n2026-01-01 FATAL:  could not read file \"global/pg_control\": read 100 of 296\nlater";
    expect(readFault(log, place).sentence).toContain('may be damaged (PostgreSQL says: could not read file "global/pg_control": read 100 of 296): restore a backup');
  });

  it("quotes a server that gave up before it could log", () => {
    const log = "postgres: could not find the database system\nExpected to find it in the directory";
    expect(readFault(log, place).sentence).toContain("(PostgreSQL says: could not find the database system)");
  });

  it("says so without a quotation when there are no words at all", () => {
    expect(readFault("", place).sentence).toMatch(/^The data folder \/data cannot be used and may be damaged: restore a backup/);
  });

  it.each(['could not bind IPv4 address "127.0.0.1": Address already in use', "FATAL:  pre-existing shared memory block (key 1, ID 2) is still in use"])(
    "knows that trying again may help after: %s",
    (log) => expect(readFault(log, place).passing).toBe(true),
  );
});
