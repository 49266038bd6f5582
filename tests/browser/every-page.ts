/** Goes through every page and through what opens over it, and lists what is wrong with each. */
import { expect } from "@jest/globals";
import { overlays, preparePlaces, type Place } from "./demo-places.ts";
import { listAxeFindings, listSmallTargets, measureOverhang, sizes } from "./look.ts";
import type { PersonRole, Screen } from "./screen.ts";
import type { Served } from "./served.ts";

let found: Promise<Place[]> | undefined;

/** The addresses, found once for all tests. */
function findPlaces(served: Served): Promise<Place[]> {
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

export async function waitUntilShown({ page }: Screen): Promise<void> {
  await page.locator("main h1:not([data-before])").waitFor();
  await page.locator(".loading").first().waitFor({ state: "detached" });
}

export type Light = "day" | "night";

/** What is wrong with the page now shown, in one light, at every size. */
export async function inspect(screen: Screen, light: Light): Promise<string[]> {
  const { page } = screen;
  const faults: string[] = [];
  const note = (what: string, more: readonly string[]) =>
    faults.push(...more.map((fault) => `${what}: ${fault}`));
  // Without motion, no colour is measured on its way from one light to the other.
  const colorScheme = light === "day" ? "light" : "dark";
  await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
  note(`by ${light}`, await listAxeFindings(page));
  note("too low to tap", await listSmallTargets(page));
  for (const size of sizes.toReversed()) {
    await page.setViewportSize(size);
    const overhang = await measureOverhang(page);
    note(`at ${size.width} px`, overhang > 0 ? [`${overhang} px too wide`] : []);
  }
  note("the browser says", screen.faults.splice(0));
  return faults;
}

type Go = (screen: Screen, path: string) => Promise<unknown>;

/** By the address, as a link from elsewhere does. */
export const byAddress: Go = ({ page }, path) => page.goto(path);

/** From page to page without loading again, as a tap on a link does. */
export const fromPage: Go = async ({ page }, path) => {
  const isSamePage = new URL(path, page.url()).pathname === new URL(page.url()).pathname;
  if (isSamePage) return page.goto(path);
  return page.evaluate((to) => {
    document.querySelector("main h1")?.setAttribute("data-before", "");
    history.pushState(null, "", to);
  }, path);
};

/** A person at a page of their own, in the language wanted, with nothing to complain of so far. */
async function openAs(served: Served, who: PersonRole, language: Language): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn(who);
  await screen.page.evaluate((wanted) => localStorage.setItem("tubule.language", wanted), language);
  await screen.page.goto("/practice/cautions");
  await waitUntilShown(screen);
  screen.faults.splice(0);
  return screen;
}

type Language = "en" | "de";
type Faulty = Record<string, string[]>;

interface Way {
  who: PersonRole;
  language: Language;
  light: Light;
  go: Go;
}

/** The faults of every page that is of interest to a person, by the page's name. */
export async function inspectAll(served: Served, way: Way): Promise<Faulty> {
  const { who, language, light, go } = way;
  const places = await findPlaces(served);
  const screen = await openAs(served, who, language);
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

/** The same of all that opens over a page. */
export async function inspectOverlays(served: Served, who: PersonRole): Promise<Faulty> {
  const places = (await findPlaces(served)).filter((place) => place.who === who);
  const screen = await openAs(served, who, "en");
  const { page } = screen;
  const faulty: Faulty = {};
  for (const { over, tap } of overlays) {
    const place = places.find(({ name }) => name === over);
    if (place === undefined) continue;
    await fromPage(screen, place.path);
    await waitUntilShown(screen);
    await page.getByRole("button", { name: tap }).first().click();
    await page.getByRole("dialog").waitFor();
    const faults = await inspect(screen, "night");
    if (faults.length > 0) faulty[`${over}: ${tap.source}`] = faults;
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
  }
  await screen.close();
  return faulty;
}
