/** The real program with the demonstration, and a browser before it; a sure end of both. */
import { afterAll, beforeAll } from "@jest/globals";
import type { Browser, BrowserContextOptions } from "playwright-core";
import { endEverything, newDataFolder, startServer } from "../crash/server-process.ts";
import { hasBrowser, launchBrowser } from "./browser.ts";
import { Screen } from "./screen.ts";

const limitMs = 90_000;

export interface Served {
  /** A browser session of its own, as on another tablet: nobody is signed in. */
  open(options?: BrowserContextOptions): Promise<Screen>;
}

/** Serves the demonstration to all journeys of a file: they share its data, in their order. */
export function serveDemonstration(): Served {
  let launching: Promise<Browser> | undefined;
  let address = "";
  beforeAll(async () => {
    if (!hasBrowser) return;
    launching = launchBrowser();
    [{ address }] = await Promise.all([
      newDataFolder().then((folder) => startServer(folder)),
      launching,
    ]);
  }, limitMs);
  afterAll(async () => {
    const browser = await launching?.catch(() => undefined);
    await browser?.close();
    await endEverything();
  }, limitMs);
  return {
    open: async (options = {}) => {
      const browser = await launching;
      if (browser === undefined) throw new Error("no browser was started");
      const usual = { viewport: { width: 1280, height: 800 }, locale: "en-GB", baseURL: address };
      return Screen.open(await browser.newContext({ ...usual, ...options }));
    },
  };
}
