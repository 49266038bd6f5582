/** Every page in English and by day, what opens over it, and how much comes before the first. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { byAddress, fromPage, inspectAll, inspectOverlays, waitUntilShown } from "./every-page.ts";
import { serve } from "./served.ts";

const served = serve();
// Before the camera is opened, as it travels.
const firstScriptsBytes = 180_000;

describe("fit for use, in English by day, is", () => {
  journey("every page of the dentist, opened from page to page", async () => {
    const way = { who: "dentist", language: "en", light: "day", go: fromPage } as const;
    expect(await inspectAll(served, way)).toEqual({});
  });
  journey("every page of the owner, opened by its address", async () => {
    const way = { who: "owner", language: "en", light: "day", go: byAddress } as const;
    expect(await inspectAll(served, way)).toEqual({});
  });
  journey("what opens over the dentist's pages", async () => {
    expect(await inspectOverlays(served, "dentist")).toEqual({});
  });
  journey("what opens over the owner's pages", async () => {
    expect(await inspectOverlays(served, "owner")).toEqual({});
  });
});

describe("a tablet", () => {
  journey("fetches little JavaScript before it shows the day", async () => {
    const known = await served.open();
    await known.signIn("assistant");
    // The same person on a browser that has nothing in store.
    const screen = await served.open({ storageState: await known.context.storageState() });
    const sizesOfScripts: Promise<number>[] = [];
    screen.page.on("requestfinished", (request) => {
      if (request.resourceType() !== "script") return;
      sizesOfScripts.push(request.sizes().then(({ responseBodySize }) => responseBodySize));
    });
    await screen.page.goto("/");
    await waitUntilShown(screen);
    const bytes = (await Promise.all(sizesOfScripts)).reduce((sum, size) => sum + size, 0);
    await Promise.all([known.close(), screen.close()]);
    expect(bytes).toBeGreaterThan(0.4 * firstScriptsBytes);
    expect(bytes).toBeLessThanOrEqual(firstScriptsBytes);
  });
});
