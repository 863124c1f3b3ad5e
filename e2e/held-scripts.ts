import type { Page } from "@playwright/test";

const SCRIPTS = /\/_next\/static\/.*\.js/;

/** A page opened while its scripts are still on their way, as on a slow line: it can be read and filled in, no more. */
export type HeldPage = {
  readonly open: (address: string) => Promise<void>;
  /** Lets the scripts come, and waits until the form that holds this element answers to them. */
  readonly letScriptsCome: (selector: string) => Promise<void>;
};

export async function holdScripts(page: Page): Promise<HeldPage> {
  let release = () => {};
  const released = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route(SCRIPTS, async (route) => {
    await released;
    await route.continue();
  });
  return {
    open: async (address) => {
      await page.goto(address, { waitUntil: "domcontentloaded" });
    },
    letScriptsCome: async (selector) => {
      release();
      await page.waitForFunction((one) => Object.keys(document.querySelector(one) ?? {}).some((key) => key.startsWith("__reactProps")), selector);
    },
  };
}
