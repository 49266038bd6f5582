/** Every page, in both languages, by day and by night, at the three sizes that matter. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { overlays, preparePlaces, type Place } from "./demo-places.ts";
import { listAxeFindings, listSmallTargets, measureOverhang, sizes } from "./look.ts";
import type { PersonRole, Screen } from "./screen.ts";
import { serveDemonstration } from "./served.ts";

const served = serveDemonstration();
// Before the camera is opened, as it travels.
const firstScriptsBytes = 180_000;
// Whether somebody is signed in is asked at the door, too; the browser notes the answer "nobody".
const nobodySignedIn = /status of 401 .*\/api\/v1\/session$/;

let found: Promise<Place[]> | undefined;

/** The addresses, found once for all tests. */
function findPlaces(): Promise<Place[]> {
  found ??= (async () => {
    const [dentist, owner] = [await served.open(), await served.open()];
    await dentist.signIn("dentist");
    await owner.signIn("owner");
    const places = await preparePlaces(dentist, owner);
    await Promise.all([dentist.close(), owner.close()]);
    return places;
  })();
  return found;
}

async function waitUntilShown({ page }: Screen): Promise<void> {
  await page.locator("main h1:not([data-before])").waitFor();
  await page.locator(".loading").first().waitFor({ state: "detached" });
}

type Light = "day" | "night";

/** What is wrong with the page now shown: all that axe knows in one light, colours in the other. */
async function inspect(screen: Screen, light: Light): Promise<string[]> {
  const { page } = screen;
  const faults: string[] = [];
  const note = (what: string, more: readonly string[]) =>
    faults.push(...more.map((fault) => `${what}: ${fault}`));
  await page.emulateMedia({ colorScheme: light === "day" ? "light" : "dark" });
  note(`by ${light}`, await listAxeFindings(page, "all"));
  note("too low to tap", await listSmallTargets(page));
  for (const size of sizes.toReversed()) {
    await page.setViewportSize(size);
    const overhang = await measureOverhang(page);
    note(`at ${size.width} px`, overhang > 0 ? [`${overhang} px too wide`] : []);
  }
  await page.emulateMedia({ colorScheme: light === "day" ? "dark" : "light" });
  note(`in the other light than ${light}`, await listAxeFindings(page, "colour"));
  note("the browser says", screen.faults.splice(0));
  return faults;
}

type Go = (screen: Screen, path: string) => Promise<unknown>;

/** By the address, as a link from elsewhere does. */
const byAddress: Go = ({ page }, path) => page.goto(path);

/** From page to page without loading again, as a tap on a link does. */
const fromPage: Go = async ({ page }, path) => {
  const isSamePage = new URL(path, page.url()).pathname === new URL(page.url()).pathname;
  if (isSamePage) return page.goto(path);
  return page.evaluate((to) => {
    document.querySelector("main h1")?.setAttribute("data-before", "");
    history.pushState(null, "", to);
  }, path);
};

/** A person at a page of their own, in the language wanted, with nothing to complain of so far. */
async function openAs(who: PersonRole, language: "en" | "de"): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn(who);
  await screen.page.evaluate((wanted) => localStorage.setItem("tubule.language", wanted), language);
  await screen.page.goto("/practice/cautions");
  await waitUntilShown(screen);
  screen.faults.splice(0);
  return screen;
}

const people = ["dentist", "owner"] as const;
type Faulty = Record<string, string[]>;

interface Way {
  language: "en" | "de";
  light: Light;
  go: Go;
}

async function inspectAll(who: PersonRole, { language, light, go }: Way): Promise<Faulty> {
  const places = await findPlaces();
  const screen = await openAs(who, language);
  const faulty: Faulty = {};
  for (const { name, path } of places.filter((place) => place.who === who)) {
    await go(screen, path);
    await waitUntilShown(screen);
    expect(await screen.page.locator("html").getAttribute("lang")).toBe(language);
    const faults = await inspect(screen, light);
    if (faults.length > 0) faulty[name] = faults;
  }
  await screen.close();
  return faulty;
}

async function inspectOverlays(who: PersonRole): Promise<Faulty> {
  const places = (await findPlaces()).filter((place) => place.who === who);
  const screen = await openAs(who, "en");
  const { page } = screen;
  const faulty: Faulty = {};
  for (const { over, tap } of overlays) {
    const place = places.find(({ name }) => name === over);
    if (place === undefined) continue;
    await fromPage(screen, place.path);
    await waitUntilShown(screen);
    await page.getByRole("button", { name: tap }).first().click();
    await page.getByRole("dialog").waitFor();
    const faults = await inspect(screen, "day");
    if (faults.length > 0) faulty[`${over}: ${tap.source}`] = faults;
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
  }
  await screen.close();
  return faulty;
}

describe.each(people)("every page of the %s is fit for use", (who) => {
  journey("in English by day, opened by its address", async () => {
    expect(await inspectAll(who, { language: "en", light: "day", go: byAddress })).toEqual({});
  });
  journey("in German by night, from page to page", async () => {
    expect(await inspectAll(who, { language: "de", light: "night", go: fromPage })).toEqual({});
  });
  journey("with what opens over it", async () => {
    expect(await inspectOverlays(who)).toEqual({});
  });
});

describe("before anybody has signed in", () => {
  for (const locale of ["en-GB", "de-DE"]) {
    journey(`the door is fit for use in ${locale}`, async () => {
      const screen = await served.open({ locale });
      await screen.page.goto("/");
      await waitUntilShown(screen);
      const faults = (await inspect(screen, "day")).filter((fault) => !nobodySignedIn.test(fault));
      await screen.close();
      expect(faults).toEqual([]);
    });
  }
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
