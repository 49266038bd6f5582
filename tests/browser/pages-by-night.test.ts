/** Every page in German and by night, and the door in both languages. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { byAddress, fromPage, inspect, inspectAll, waitUntilShown } from "./every-page.ts";
import { serve } from "./served.ts";

const served = serve();
// Whether somebody is signed in is asked at the door, too; the browser notes the answer "nobody".
const nobodySignedIn = /status of 401 .*\/api\/v1\/session$/;

describe("fit for use, in German by night, is", () => {
  journey("every page of the dentist, opened by its address", async () => {
    const way = { who: "dentist", language: "de", light: "night", go: byAddress } as const;
    expect(await inspectAll(served, way)).toEqual({});
  });
  journey("every page of the owner, opened from page to page", async () => {
    const way = { who: "owner", language: "de", light: "night", go: fromPage } as const;
    expect(await inspectAll(served, way)).toEqual({});
  });
});

describe("before anybody has signed in", () => {
  for (const [locale, light] of [
    ["en-GB", "night"],
    ["de-DE", "day"],
  ] as const) {
    journey(`the door is fit for use in ${locale} by ${light}`, async () => {
      const screen = await served.open({ locale });
      await screen.page.goto("/");
      await waitUntilShown(screen);
      const faults = (await inspect(screen, light)).filter((fault) => !nobodySignedIn.test(fault));
      await screen.close();
      expect(faults).toEqual([]);
    });
  }
});
