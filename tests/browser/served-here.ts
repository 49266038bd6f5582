/** The server inside the test itself, on a clock that the test sets, and a browser before it. */
import { existsSync } from "node:fs";
import path from "node:path";
import type { Browser, BrowserContextOptions } from "playwright-core";
import { openApp, type TestApp } from "../helpers/app.ts";
import { launchBrowser } from "./browser.ts";
import { Screen } from "./screen.ts";

export interface ServedHere {
  it: TestApp;
  /** Moves the server's clock; a browser opened from then on has the same time. */
  setClock(instant: string): void;
  /** A tablet that is used by touch alone, its clock as the server's. */
  openTablet(): Promise<Screen>;
  close(): Promise<void>;
}

// Jest cannot load the plug-in that serves the client's files, so the browser is given them here.
const webFolder = path.resolve("dist/web");
const isPage = ({ pathname }: URL): boolean => !pathname.startsWith("/api/");
const tablet = { width: 1280, height: 800 };

export async function serveHere(): Promise<ServedHere> {
  const it = await openApp();
  await it.app.listen(0, "127.0.0.1");
  const address = await it.app.getUrl();
  const browser: Browser = await launchBrowser();
  return {
    it,
    setClock: (instant) => it.clock.runFrom(instant),
    openTablet: async () => {
      const usual: BrowserContextOptions = { viewport: tablet, locale: "en-GB", hasTouch: true };
      const context = await browser.newContext({ ...usual, baseURL: address });
      await context.clock.install({ time: it.clock.now() });
      await context.route(isPage, (route) => {
        const { pathname } = new URL(route.request().url());
        const file = path.join(webFolder, pathname);
        const isFile = pathname !== "/" && existsSync(file);
        return route.fulfill({ path: isFile ? file : path.join(webFolder, "index.html") });
      });
      return Screen.open(context, true);
    },
    close: async () => {
      await browser.close();
      await it.close();
    },
  };
}
