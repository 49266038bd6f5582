/** Curing lights read, storage that went wrong settled, and how much a product still gives. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { listAxeFindings, listSmallTargets } from "./look.ts";
import type { PersonRole, Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();

async function openPart(who: PersonRole, part: string): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn(who);
  await screen.page.goto(`/practice/${part}`);
  return screen;
}

async function looksRight({ page }: Screen): Promise<void> {
  expect(await listAxeFindings(page)).toEqual([]);
  expect(await listSmallTargets(page)).toEqual([]);
}

describe("the lights of a practice", () => {
  journey("are seen from Today, with what they have lost", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    const main = page.getByRole("main");
    await screen.reads(main, /A curing light needs a look Lumen Two .*reading overdue/);
    await screen.tap("See the lights");
    const weak = page.getByRole("region", { name: "Lumen Two (fictional)" });
    // 980 at first, 610 now: 37.8 % less, by arithmetic.
    await screen.reads(weak, /reading overdue .*37.8 % less than at first/);
    const good = page.getByRole("region", { name: "Lumen One (fictional)" });
    await screen.reads(good, /as it should be .*Operatory 1/);
    await screen.reads(good, /4 mm 890 mW\/cm²/);
    await looksRight(screen);
    await screen.close();
  });

  journey("get a reading, and another in the place of a wrong one", async () => {
    const screen = await openPart("assistant", "lights");
    const { page } = screen;
    const light = page.getByRole("region", { name: "Lumen Two (fictional)" });
    await screen.tap("Enter a reading", light);
    const dialog = page.getByRole("dialog");
    await dialog.getByText("power in mW").click();
    await dialog.getByLabel("Value").fill("50");
    await looksRight(screen);
    await screen.tap("Save", dialog);
    // 50 mW from 8 mm: 99.47 mW/cm2, rounded down (ISO 10650, radiant exitance).
    await screen.reads(light, /below the floor/);
    await light.locator("summary").click();
    await screen.reads(light, /99 mW\/cm²/);
    await screen.tap("Enter a reading", light);
    await dialog.getByLabel("Value").fill("605");
    await dialog.getByLabel("Takes the place of").selectOption({ index: 1 });
    await screen.tap("Save", dialog);
    await screen.reads(light, /as it should be .*605 mW\/cm² .*99 mW\/cm² replaced/);
    await screen.close();
  });

  journey("are added with a soft start, and taken out of use", async () => {
    const screen = await openPart("assistant", "lights");
    const { page } = screen;
    await screen.tap("Add a light");
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel("Name", { exact: true }).fill("Lumen Three (fictional)");
    await dialog.getByLabel("Output").selectOption("rising");
    await dialog.getByLabel("Beginning with").fill("10");
    await screen.tap("Save", dialog);
    const light = page.getByRole("region", { name: "Lumen Three (fictional)" });
    await screen.reads(light, /never read .*rises: 5 s from 10 to 100 %/);
    await screen.tap("Change", light);
    await dialog.getByLabel("It is not used any more").check();
    await screen.tap("Save", dialog);
    await screen.reads(light, /not used any more/);
    await screen.close();
  });
});

describe("storage out of its range", () => {
  journey("is entered by an assistant and settled by a dentist", async () => {
    const assistant = await openPart("assistant", "temperatures");
    const main = assistant.page.getByRole("main");
    await assistant.tap("Enter an excursion");
    const dialog = assistant.page.getByRole("dialog");
    await dialog.getByLabel("Place").selectOption({ label: "Store" });
    await dialog.getByLabel("From").fill("2026-03-01T22:00");
    await dialog.getByLabel("Until").fill("2026-03-01T21:00");
    await assistant.tap("Enter it", dialog);
    await assistant.reads(dialog, /the end lies after the beginning.*Say how cold or how warm/);
    await dialog.getByLabel("Until").fill("2026-03-02T06:00");
    await dialog.getByLabel("Highest").fill("31.5");
    await assistant.tap("Enter it", dialog);
    await assistant.reads(main, /Store not settled .*31.5 °C .*A dentist or the owner settles it/);
    await looksRight(assistant);
    await assistant.close();

    const dentist = await served.open();
    const { page } = dentist;
    await dentist.signIn("dentist");
    await dentist.reads(page.getByRole("main"), /Store was out of range/);
    await dentist.tap("Decide");
    await dentist.tap("Settle it");
    const asked = page.getByRole("dialog");
    await asked
      .getByLabel("Decision and why")
      .fill("Within what the instructions allow for a day.");
    await dentist.tap("Settle it", asked);
    await dentist.reads(page.getByRole("main"), /settled by Dr. Noor Falk.*Within what/);
    await dentist.close();
  });
});

journey("a product says how many uses are left, and from when on that is low", async () => {
  const screen = await served.open();
  const { page } = screen;
  await screen.signIn("office");
  await page.goto("/catalogue");
  await screen.tap("Dune Flow");
  const main = page.getByRole("main");
  await screen.reads(main, /Uses left \d+ uses on the shelves/);
  await page.getByLabel("Low below so many uses").fill("500");
  await screen.tap("Save");
  await screen.reads(page.locator("body"), /The point is kept/);
  await page.reload();
  expect(await page.getByLabel("Low below so many uses").inputValue()).toBe("500");
  await screen.close();
});
