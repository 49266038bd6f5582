/** The dentist: stopped before priming, then the steps with their clocks, and the signature. */
import { describe, expect } from "@jest/globals";
import type { Locator } from "playwright-core";
import { journey } from "./browser.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
const reason = "Ten seconds of air, counted aloud.";
// Read from two metres.
const chairsideTypePx = 32;

const typeSizeOf = (place: Locator): Promise<number> =>
  place.evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));

/** Signs in and follows the mark of a chart's tray on the day's line. */
async function openTray(chart: string): Promise<Screen> {
  const screen = await served.open();
  const { page } = screen;
  await screen.signIn("dentist");
  await screen.tap(new RegExp(chart), page.getByRole("region", { name: "The day's trays" }));
  return screen;
}

/** The step now at hand, once it is the one of that name. */
async function seeStep({ page }: Screen, name: string): Promise<Locator> {
  const step = page.getByRole("region", { name, exact: true });
  const title = step.getByRole("heading", { name, exact: true });
  await title.waitFor();
  expect(await typeSizeOf(title)).toBeGreaterThanOrEqual(chairsideTypePx);
  return step;
}

/** The whole seconds that the clock still shows. */
const readSeconds = async (screen: Screen): Promise<number> => {
  const [, seconds] = await screen.reads(screen.page.getByRole("timer"), /^[\w-]+ (\d+) /);
  return Number(seconds);
};

async function primeWithReload(screen: Screen): Promise<void> {
  const { page } = screen;
  await seeStep(screen, "Prime");
  const clock = page.getByRole("timer");
  await screen.reads(clock, /^Apply 20 20 s, as the technique says$/);
  await screen.tap("Begin: Apply");
  await screen.reads(clock, /^Apply 1\d /);
  const before = await readSeconds(screen);
  await page.reload();
  await seeStep(screen, "Prime");
  const after = await readSeconds(screen);
  expect(after).toBeLessThanOrEqual(before);
  expect(after).toBeGreaterThan(0);
  await screen.tap("Begin: Air-dry");
  // The technique plans five; the longer time of the instructions is the one that runs.
  await screen.reads(clock, /^Air-dry \d+ 10 s, as the instructions say$/);
  await screen.tap("Step done");
}

async function bondToTheEndOfTheAir(screen: Screen): Promise<void> {
  await seeStep(screen, "Adhesive");
  const clock = screen.page.getByRole("timer");
  await screen.tap("Begin: Air-dry");
  await screen.reads(clock, /^Air-dry \+\d+ s 5 s, as the technique says$/);
  await screen.tap("Begin: Light-cure");
  await screen.reads(clock, /^Light-cure \d+ 10 s/);
  await screen.tap("Step done");
}

/** Goes on with another container, whose code the page itself says; gives that code. */
async function swapAtTheCoat(screen: Screen): Promise<string> {
  const { page } = screen;
  const step = await seeStep(screen, "Resin coat");
  await screen.reads(step, /lot DF-1180/);
  await screen.tap("Begin: Light-cure");
  await screen.tap("Swap container");
  const dialog = page.getByRole("dialog");
  const [, shown = ""] = await screen.reads(dialog, /Fetch Take (\S+) from .* · Dune Flow/);
  await screen.tap("Cancel", dialog);
  await screen.scan(shown.replace("-", ""));
  await screen.reads(dialog, new RegExp(`Swap a container: Resin coat Dune Flow ${shown}`));
  await screen.tap("Go on with it", dialog);
  await screen.reads(step, new RegExp(`Resin coat Dune Flow ${shown} · lot`));
  await screen.tap("Step done");
  return shown;
}

describe("the dentist", () => {
  journey("is stopped across the screen, and starts only with a reason", async () => {
    const screen = await openTray("C-1012");
    const { page } = screen;
    await screen.tap("Chairside");
    const main = page.getByRole("main");
    await screen.reads(main, /Stop Do not prime .*Drying too short .*5 s planned, .* ask for 10 s/);
    const word = main.getByText("Stop", { exact: true }).first();
    expect(await typeSizeOf(word)).toBeGreaterThanOrEqual(4 * chairsideTypePx);
    const field = await page.locator(".verdict-field").boundingBox();
    expect(field?.width).toBeGreaterThan(0.9 * 1280);
    expect(field?.height).toBeGreaterThan(0.35 * 800);
    const start = page.getByRole("button", { name: /Start priming/ });
    expect(await start.count()).toBe(0);

    await screen.tap("Pass this stop");
    const button = page.getByRole("button", { name: "Pass it" });
    await page.getByLabel("Reason").fill("no");
    expect(await button.isDisabled()).toBe(true);
    await page.getByLabel("Reason").fill(reason);
    await button.click();
    await screen.reads(main, new RegExp(`Stop Passed with a reason .*Falk: ${reason}`));
    await start.click();
    await seeStep(screen, "Isolate");
    await screen.close();
  });

  journey("works the steps by their clocks and signs what stays as it is", async () => {
    const screen = await openTray("C-1012");
    const { page } = screen;
    // The record has been begun, so the mark leads straight to the chair.
    await seeStep(screen, "Isolate");
    await screen.tap("Step done");
    await primeWithReload(screen);
    await bondToTheEndOfTheAir(screen);
    const swapped = await swapAtTheCoat(screen);
    await seeStep(screen, "Glycerin and final cure");
    await screen.tap("Begin: Light-cure");
    await screen.tap("Step done");
    await seeStep(screen, "Separate");
    await screen.tap("Begin");
    await screen.tap("Step done");
    await seeStep(screen, "Provisional");
    await screen.tap("Leave out");

    await screen.tap("Use the password");
    await page.getByLabel("Password").fill("demo-dentist");
    await screen.tap("Sign the record");
    const main = page.getByRole("main");
    const [hash] = await screen.reads(main, /\b[0-9a-f]{64}\b/);
    await screen.reads(main, /Signed by Dr. Noor Falk/);
    await screen.tap("The whole record");
    await screen.reads(main, new RegExp(`Passed by Dr. Noor Falk: ${reason}`));
    const sheet = await main.innerText();
    expect(sheet.replaceAll(/\s/g, "")).toContain(hash);
    // The swap leaves both on the step.
    expect(sheet).toContain(swapped);
    expect(sheet).toContain("lot DF-1180");
    expect(await page.getByRole("button", { name: /Sign|Swap|Step done/ }).count()).toBe(0);
    await screen.close();
  });
});
