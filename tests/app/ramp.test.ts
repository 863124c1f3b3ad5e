import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { rampColour, rampInk, rampLab, rampStops, RAMP_FROM_C, RAMP_TO_C } from "@/app/_components/temperature-ramp";

const everyTenth = Array.from({ length: 89 }, (_, i) => RAMP_FROM_C + i * 10);

/**
 * Relative luminance (WCAG 2.2, "relative luminance") by way of OKLab to linear sRGB
 * (CSS Color Module Level 4, sample code for color conversions).
 */
function luminance([L, a, b]: readonly [number, number, number]): number {
  const l = (L + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (L - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (L - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const red = 4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s;
  const green = -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s;
  const blue = -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s;
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

test("hotter is always lighter", () => {
  const lightness = everyTenth.map((celsius) => rampLab(celsius)[0]);
  lightness.slice(1).forEach((value, i) => expect(value).toBeGreaterThan(lightness[i] ?? 1));
});

test("equal steps in temperature are nearly equal steps in colour", () => {
  const steps = everyTenth.slice(1).map((celsius, i) => {
    const [from, to] = [rampLab(everyTenth[i] ?? 0), rampLab(celsius)];
    return Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2]);
  });
  expect(Math.max(...steps) / Math.min(...steps)).toBeLessThan(1.35);
});

test("the ink of a temperature stands at 4.5:1 or more on its colour", () => {
  for (const celsius of everyTenth) {
    const paper = luminance(rampLab(celsius)) + 0.05;
    const contrast = rampInk(celsius) === "#fff" ? 1.05 / paper : paper / (luminance([0.12, 0, 0]) + 0.05);
    expect(contrast, `at ${celsius} °C`).toBeGreaterThanOrEqual(4.5);
  }
});

test("outside its range the ramp shows its end colours", () => {
  expect(rampColour(-40)).toBe(rampColour(RAMP_FROM_C));
  expect(rampColour(Number.NaN)).toBe(rampColour(RAMP_FROM_C));
  expect(rampColour(1200)).toBe(rampColour(RAMP_TO_C));
});

test("a gradient begins and ends on the ramp", () => {
  const stops = rampStops(780, 482);
  expect(stops[0]).toEqual({ at: 0, colour: rampColour(780) });
  expect(stops.at(-1)).toEqual({ at: 1, colour: rampColour(482) });
});

test("the stylesheet's ramp is this ramp", () => {
  const sheet = readFileSync(new URL("../../app/_styles/tokens.css", import.meta.url), "utf8");
  const declared = [...sheet.matchAll(/--ramp-(\d+): ([^;]+);/g)];
  expect(declared).toHaveLength(10);
  for (const [, celsius, colour] of declared) expect(colour).toBe(rampColour(Number(celsius)));
});
