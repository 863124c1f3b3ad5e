import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { castorLoadKg, checkTrolley, derating, pushFlag, pushForces, type Route } from "@/lib/domain/lifting/trolley";

const LEVEL: Route = { rolling: "good", slope: 0, threshold: false };

function forces(grossKg: number, rolling: Route["rolling"], slope: number) {
  const outcome = pushForces(grossKg, { rolling, slope });
  if (!outcome.ok) throw new Error(outcome.problems[0].message);
  return outcome.value;
}

describe("push forces", () => {
  // HSE, pushing and pulling: at least 2 % of the weight on the level, up to 10 % where uneven; 70 N to keep moving.
  it.each([["good", 357], ["worn", 178], ["uneven", 71]] as const)(
    "on %s wheels the 70 N figure for keeping moving is reached near %s kg",
    (rolling, kg) => {
      expect(forces(kg, rolling, 0).keepMovingN).toBeGreaterThan(69);
      expect(forces(kg, rolling, 0).keepMovingN).toBeLessThanOrEqual(70.1);
    },
  );

  it("the 150 N figure for starting is reached near 382 kg on good wheels", () => {
    expect(forces(382, "good", 0).startN).toBeCloseTo(150, 0);
  });

  it("400 kg up 1 in 12 takes more than 30 kgf even on good wheels (HSE INDG143)", () => {
    expect(forces(400, "good", 1 / 12).keepMovingN / 9.81).toBeGreaterThan(30);
  });

  // INDG143, push force for 400 kg on slopes, kgf, from memory: the share of the slope alone.
  it.each([[40, 10], [20, 20], [12, 33], [10, 40]])("1 in %s adds about %s kgf to 400 kg", (run, kgf) => {
    const addedN = forces(400, "good", 1 / run).keepMovingN - forces(400, "good", 0).keepMovingN;
    expect(Math.abs(addedN / 9.81 - kgf)).toBeLessThan(0.5);
  });

  it.each([[0, 0], [-5, 0], [NaN, 0], [100, -0.01], [100, 0.126], [100, NaN]])("refuses %s kg on a slope of %s", (kg, slope) => {
    expect(pushForces(kg, { rolling: "good", slope }).ok).toBe(false);
  });

  it("grow with mass and slope, and starting is never the easier part", () => {
    const kg = fc.double({ min: 1, max: 1000, noNaN: true });
    fc.assert(
      fc.property(kg, fc.double({ min: 0, max: 0.12, noNaN: true }), fc.constantFrom<Route["rolling"]>("good", "worn", "uneven"), (mass, slope, rolling) => {
        const here = forces(mass, rolling, slope);
        expect(here.startN).toBeGreaterThan(here.keepMovingN);
        expect(forces(mass * 1.1, rolling, slope).startN).toBeGreaterThan(here.startN);
        expect(forces(mass, rolling, slope + 0.005).keepMovingN).toBeGreaterThan(here.keepMovingN);
      }),
    );
  });

  it.each([[150, 70, "none"], [150.1, 70, "amber"], [150, 70.1, "amber"], [200, 100, "amber"], [200.1, 70, "red"], [150, 100.1, "red"], [NaN, 70, "red"]])(
    "%s N to start and %s N to keep moving: %s",
    (startN, keepMovingN, flag) => {
      expect(pushFlag({ startN, keepMovingN })).toBe(flag);
    },
  );
});

describe("what a trolley may carry", () => {
  it.each([
    ["level and even", {}, 1],
    ["uneven", { rolling: "uneven" }, 0.8],
    ["a slope of 2 %", { slope: 0.02 }, 1],
    ["a slope of 2.1 %", { slope: 0.021 }, 0.5],
    ["a threshold", { threshold: true }, 0.5],
    ["an off-centre load", { offCentre: true }, 0.75],
    ["an off-centre load over a threshold", { offCentre: true, threshold: true }, 0.375],
  ] as const)("%s: %j leaves %s of the plate figure", (_name, change, share) => {
    expect(derating({ ...LEVEL, ...change })).toBeCloseTo(share, 12);
  });

  it("counts the trolley's own mass, and refuses above the derated figure", () => {
    const limits = { ratedKg: 200, ownKg: 40 };
    expect(checkTrolley(limits, 160, LEVEL)).toMatchObject({ ok: true, value: { grossKg: 200, allowedGrossKg: 200 } });
    const over = checkTrolley(limits, 160.1, LEVEL);
    expect(over.ok).toBe(false);
    if (!over.ok) expect(over.problems[0]).toMatchObject({ code: "trolley-overloaded", allowed: "up to 160 kg" });
    expect(checkTrolley(limits, 61, { ...LEVEL, threshold: true }).ok).toBe(false);
  });

  it.each([0, -1, NaN])("refuses a load of %s kg", (kg) => {
    expect(checkTrolley({ ratedKg: 200, ownKg: 40 }, kg, LEVEL).ok).toBe(false);
  });
});

describe("what each castor must carry", () => {
  it("is the gross mass shared by all but one", () => {
    expect(castorLoadKg(300, 4)).toEqual({ ok: true, value: 100 });
    expect(castorLoadKg(300, 3)).toEqual({ ok: true, value: 150 });
  });
  it.each([[300, 2], [300, 9], [300, 3.5], [0, 4], [NaN, 4]])("refuses %s kg on %s castors", (kg, castors) => {
    expect(castorLoadKg(kg, castors).ok).toBe(false);
  });
});
