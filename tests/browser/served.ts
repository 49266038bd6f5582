/** The real program with the demonstration, and a browser in front of it; a sure end of both. */
import { afterAll, beforeAll } from "@jest/globals";
import type { Browser, BrowserContextOptions } from "playwright-core";
import { endEverything, newDataFolder, startServer } from "../crash/server-process.ts";
import { hasBrowser, launchBrowser } from "./browser.ts";
import { Screen } from "./screen.ts";

const startLimitMs = 90_000;

export interface Served {
  /** Another browser session, as another tablet would have: nobody is signed in. */
  open(options?: BrowserContextOptions): Promise<Screen>;
}

/** Serves the demonstration to all journeys of a file: they share its database, in their order. */
export function serveDemonstration(): Served {
  let browser: Browser | undefined;
  let address = "";
  beforeAll(async () => {
    if (!hasBrowser) return;
    const [server, launched] = await Promise.all([
      startServer(await newDataFolder()),
      launchBrowser(),
    ]);
    address = server.address;
    browser = launched;
  }, startLimitMs);
  afterAll(async () => {
    await browser?.close();
    await endEverything();
  }, startLimitMs);
  return {
    open: async (options = {}) => {
      if (browser === undefined) throw new Error("no browser was started");
      const usual = { viewport: { width: 1280, height: 800 }, locale: "en-GB", baseURL: address };
      return Screen.open(await browser.newContext({ ...usual, ...options }));
    },
  };
}
