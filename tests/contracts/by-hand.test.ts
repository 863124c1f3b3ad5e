import { describe, expect, it } from "vitest";
import { byHandHref, readByHand, type ByHand } from "@/lib/contracts/by-hand";

const [run, other, kiln] = ["11111111-1111-4111-8111-111111111111", "22222222-2222-4222-8222-222222222222", "33333333-3333-4333-8333-333333333333"];
const WAY: ByHand = { base: { way: { aim: "least-late", cost: 12.5, moves: [{ runId: run, kilnId: kiln, day: "2027-03-22" }] } }, puts: [{ runId: other, kilnId: kiln, day: "2027-04-05" }] };
const read = (href: string, more: Readonly<Record<string, string>> = {}): ByHand | null => {
  const params = new URL(href, "https://saltmarsh.example").searchParams;
  return readByHand({ ...Object.fromEntries([...params.keys()].map((key) => [key, params.getAll(key)])), ...more });
};

describe("an edit by hand in an address", () => {
  it("comes back as it was, of a way out and of a season", () => {
    expect(read(byHandHref(WAY))).toEqual(WAY);
    const season: ByHand = { base: { replanId: run }, puts: WAY.puts };
    expect(read(byHandHref(season))).toEqual(season);
  });

  it("takes what the form adds, and the last word on every run", () => {
    expect(read(byHandHref(WAY), { run: other, kiln, day: "2027-04-12" })?.puts).toEqual([{ runId: other, kilnId: kiln, day: "2027-04-12" }]);
    expect(read(byHandHref(WAY), { run, kiln, day: "2027-04-12" })?.puts).toHaveLength(2);
    expect(read(byHandHref(WAY), { run, kiln, day: "2027-02-30" })?.puts).toEqual(WAY.puts);
  });

  it("is none without a settlement to edit", () => {
    for (const params of [{}, { put: `${run}_${kiln}_2027-04-05` }, { tried: "cheapest_3" }, { season: "x" }]) expect(readByHand(params)).toBeNull();
  });
});
