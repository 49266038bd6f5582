/** The real program, with the demonstration or empty, and a browser before it; an end of both. */
import { afterAll, beforeAll } from "@jest/globals";
import type { Browser, BrowserContextOptions } from "playwright-core";
import { endEverything, newDataFolder, startServer } from "../crash/server-process.ts";
import { hasBrowser, launchBrowser } from "./browser.ts";
import { Screen } from "./screen.ts";

const limitMs = 90_000;

export interface Served {
  /** A browser session of its own, as on another tablet: nobody is signed in. */
  open(options?: BrowserContextOptions): Promise<Screen>;
  /** What the program has said on its console: the first group of the pattern. */
  says(pattern: RegExp): Promise<string>;
}

/**
 * Serves all journeys of a file: they share its data, in their order. The program and the browser
 * may be started with words of their own.
 */
export function serve(words: readonly string[] = [], browserWords: readonly string[] = []): Served {
  let running: Promise<[Awaited<ReturnType<typeof startServer>>, Browser]> | undefined;
  let launching: Promise<Browser> | undefined;
  beforeAll(async () => {
    if (!hasBrowser) return;
    launching = launchBrowser(browserWords);
    const starting = newDataFolder().then((folder) => startServer(folder, { words }));
    running = Promise.all([starting, launching]);
    await running;
  }, limitMs);
  afterAll(async () => {
    // Also where the server did not start.
    const browser = await launching?.catch(() => undefined);
    await browser?.close();
    await endEverything();
  }, limitMs);
  return {
    open: async (options = {}) => {
      if (running === undefined) throw new Error("nothing is served");
      const [{ address }, browser] = await running;
      const usual = { viewport: { width: 1280, height: 800 }, locale: "en-GB", baseURL: address };
      return Screen.open(await browser.newContext({ ...usual, ...options }));
    },
    says: async (pattern) => {
      if (running === undefined) throw new Error("nothing is served");
      const [{ server }] = await running;
      return server.says(pattern);
    },
  };
}
