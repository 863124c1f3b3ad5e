import { describe, expect, test } from "vitest";
import { kilnFit, noKilnFits, steamerFit, trolleyFit } from "@/lib/domain/booking/fits";
import { aKiln, aPlan, aSteamer, aTrolley } from "./sample-question";

const load = (width: number, depth: number, height: number) => aPlan({ loadMm: { width, depth, height } });

describe("a load and a kiln 600 by 500 by 400 mm inside, 40 mm kept free on each side and 50 mm above", () => {
  const kiln = aKiln("B");

  test("fits when it just fits, in either orientation", () => {
    expect(kilnFit(load(520, 420, 350), kiln)).toEqual([]);
    expect(kilnFit(load(420, 520, 350), kiln)).toEqual([]);
  });

  test("does not fit when it is a millimetre too wide, in both orientations", () => {
    expect(kilnFit(load(521, 420, 350), kiln)).toEqual(["Kiln B is 600 by 500 mm inside; the load needs 601 by 500 mm with 40 mm kept free on each side."]);
    expect(kilnFit(load(420, 420, 350), kiln)).toEqual([]);
    expect(kilnFit(load(421, 421, 350), kiln)).toHaveLength(1);
  });

  test("does not fit when it is too tall", () => {
    expect(kilnFit(load(300, 300, 351), kiln)).toEqual(["Kiln B is 400 mm tall inside; the load needs 401 mm with 50 mm headroom."]);
  });

  test("a fraction too tall is never shown as fitting", () => {
    expect(kilnFit(load(300, 300, 350.2), kiln)).toEqual(["Kiln B is 400 mm tall inside; the load needs 401 mm with 50 mm headroom."]);
  });

  test("shelf load and hottest temperature at and above the limit", () => {
    const plan = aPlan();
    expect(kilnFit(aPlan({ shelfKg: 80 }), kiln)).toEqual([]);
    expect(kilnFit(aPlan({ shelfKg: 80.01 }), kiln)).toEqual(["The shelf of Kiln B carries 80 kg; the load is 80.1 kg."]);
    expect(kilnFit(aPlan({ firing: { ...plan.firing, peakC: 950 } }), kiln)).toEqual([]);
    expect(kilnFit(aPlan({ firing: { ...plan.firing, peakC: 951 } }), kiln)).toEqual(["Kiln B reaches 950 °C; the firing needs 951 °C."]);
  });

  test("a size that is not a number does not fit", () => {
    expect(kilnFit(load(NaN, 300, 300), kiln)).toHaveLength(1);
    expect(kilnFit(load(300, 300, NaN), kiln)).toHaveLength(1);
  });
});

describe("no kiln fits", () => {
  test("names the best kiln for each limit that all of them fail", () => {
    const kilns = [aKiln("A"), aKiln("B", { insideMm: [700, 700, 620], shelfLoadKg: 60 })];
    expect(noKilnFits(load(300, 300, 650), kilns)).toBe("No kiln is 700 mm tall inside; the tallest is 620 mm.");
    expect(noKilnFits(load(690, 300, 300), kilns)).toBe("No kiln is 770 by 380 mm inside; the widest is 700 by 700 mm.");
    expect(noKilnFits(aPlan({ shelfKg: 100 }), kilns)).toBe("No kiln shelf carries 100 kg; the strongest carries 80 kg.");
  });

  test("gives each kiln's own reason when they fail for different ones", () => {
    const kilns = [aKiln("A", { shelfLoadKg: 20 }), aKiln("B", { maxC: 800 })];
    expect(noKilnFits(aPlan(), kilns)).toBe("No kiln takes this load. The shelf of Kiln A carries 20 kg; the load is 25 kg. Kiln B reaches 800 °C; the firing needs 850 °C.");
  });

  test("a workshop without kilns", () => {
    expect(noKilnFits(aPlan(), [])).toBe("The workshop has no kiln yet.");
  });
});

test("a mould of 280 by 230 by 180 mm and 18 kg with its wax, and a steamer", () => {
  expect(steamerFit(aPlan(), aSteamer("S", { insideMm: [230, 280, 180], maxMouldKg: 18 }))).toEqual([]);
  expect(steamerFit(aPlan(), aSteamer("S", { insideMm: [229, 280, 179], maxMouldKg: 17.9 }))).toEqual([
    "Steamer S is 229 by 280 mm inside; the mould is 280 by 230 mm.",
    "Steamer S is 179 mm tall inside; the mould is 180 mm.",
    "Steamer S takes 17.9 kg; the mould with its wax is 18 kg.",
  ]);
});

test("a trolley's own mass counts against its plate, and a bad floor takes some of the rating away", () => {
  const trolley = aTrolley("T", 100, 30);
  expect(trolleyFit({ kg: 70, what: "the load" }, trolley)).toEqual([]);
  expect(trolleyFit({ kg: 70.1, what: "the load" }, trolley)).toHaveLength(1);
  expect(trolleyFit({ kg: 50, what: "the load" }, trolley, "uneven")).toEqual([]);
  expect(trolleyFit({ kg: 51, what: "the load" }, trolley, "uneven")).toEqual([
    "Trolley T is rated 80 kg (100 kg on its plate, less for the floor); the load of 51 kg and the trolley's own 30 kg make 81 kg.",
  ]);
  expect(trolleyFit({ kg: 20, what: "the load" }, trolley, "threshold")).toEqual([]);
  expect(trolleyFit({ kg: NaN, what: "the load" }, trolley)).toHaveLength(1);
});
