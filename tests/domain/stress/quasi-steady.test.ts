import { describe, expect, it } from "vitest";
import { catalogueGlass } from "@/lib/domain/glass/catalogue";
import { slabBody } from "@/lib/domain/shape/cooling-body";
import { stiffness } from "@/lib/domain/stress/quasi-steady";
import { structuralFactor } from "@/lib/domain/stress/structural-factor";
import { perSecond } from "@/lib/domain/units";

describe("quasi-steady thermal stress", () => {
  /** Timoshenko & Goodier; Kingery 1955: 25 mm slab at 15 K/h with κ 4e-7, E 70 GPa, α 9e-6, ν 0.22. */
  it("gives 0.81 K, 0.437 MPa at the surface and 0.219 MPa in the centre for the worked example", () => {
    const body = slabBody(0.025);
    const perKappa = perSecond(15) / 4e-7;
    const S = (70_000 * 9e-6) / (1 - 0.22);
    expect(perKappa * body.coreSurfaceM2).toBeCloseTo(0.81, 2);
    expect(S * perKappa * body.surfaceM2).toBeCloseTo(0.437, 2);
    expect(S * perKappa * body.centreM2).toBeCloseTo(0.219, 2);
  });
  it("has Eα/(1−ν) of about 0.81 MPa/K for soda-lime and 0.67 for 45 % lead crystal", () => {
    expect(stiffness(catalogueGlass("soda-lime-casting"))).toBeCloseTo(0.81, 2);
    expect(stiffness(catalogueGlass("lead-crystal-45"))).toBeCloseTo(0.67, 2);
  });
});

describe("structural factor", () => {
  /** One-dimensional viscoelastic model on the data of Aronen & Karvinen (2018), 25 mm at 15 K/h. */
  it.each([[9e-6, 9e-6, 0.99], [9.1e-6, 25.1e-6, 1.58], [9e-6, 32e-6, 1.83]])("for expansions %d and %d is %d within 0.02", (solid, liquid, factor) => {
    expect(Math.abs(structuralFactor({ expansionSolidPerK: solid, expansionLiquidPerK: liquid }) - factor)).toBeLessThanOrEqual(0.02);
  });
});
