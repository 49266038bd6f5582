/** Curing lights read, storage that went wrong settled, and how much a product still gives. */
import { describe, expect } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
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
  journey("are listed with what they have lost, by their standing in the address", async () => {
    const screen = await openPart("assistant", "lights");
    const { page } = screen;
    const main = page.getByRole("main");
    const rowOf = (name: RegExp) => main.getByRole("row", { name });
    await screen.reads(rowOf(/Lumen One/), /Operatory 1 as it should be .*1,195 mW/);
    // 980 at first, 610 now: 37.8 % less, by arithmetic.
    await screen.reads(rowOf(/Lumen Two/), /Operatory 2 reading overdue .*610 .*37.8 % less/);
    await looksRight(screen);
    await page.getByLabel("Standing").selectOption("due");
    await page.waitForURL(/\?state=due$/);
    await screen.reads(main, /Lumen Two/);
    expect(await rowOf(/Lumen One/).count()).toBe(0);
    await page.goto("/practice/lights?state=weak");
    await screen.reads(main, /Nothing fits/);
    await screen.close();
  });

  journey("are seen from Today, and one by one as a picture with its figures", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    const main = page.getByRole("main");
    await screen.reads(main, /A curing light needs a look Lumen Two .*reading overdue/);
    await screen.tap("See the lights");
    await screen.reads(
      main,
      /Lumen Two .*Operatory 2 .*reading overdue .*37.8 % less than at first/,
    );
    // Three readings; the latest, 610 of 1000 mW/cm2 on the scale, stands lower than the first.
    const heights = await page
      .locator(".chart-point")
      .evaluateAll((points) => points.map((point) => Number(point.getAttribute("cy"))));
    expect(heights).toHaveLength(3);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
    // The limit comes with the settings of the practice, which are fetched beside the light.
    await page.locator(".chart-floor").waitFor({ state: "attached" });
    await screen.reads(page.getByRole("table", { name: "All readings" }), /610 .*850 .*980/);
    await looksRight(screen);
    await screen.tap("All lights");
    await screen.tap(/^Lumen One/);
    const soft = page.getByRole("region", { name: "Soft start" });
    await screen.reads(soft, /Of its output: 5 s from 10 to 100 % .*0 mm 1,230 mW/);
    await screen.reads(page.getByRole("region", { name: "Standard" }), /4 mm 890 mW\/cm²/);
    await screen.close();
  });

  journey("get a reading, and another in the place and at the time of a wrong one", async () => {
    const screen = await openPart("assistant", "lights");
    const { page } = screen;
    const main = page.getByRole("main");
    await screen.tap(/^Lumen Two/);
    await screen.tap("Enter a reading");
    const dialog = page.getByRole("dialog");
    await dialog.getByText("power in mW").click();
    await dialog.getByLabel("Value").fill("50");
    await looksRight(screen);
    await screen.tap("Save", dialog);
    // 50 mW from 8 mm: 99.47 mW/cm2, rounded down (ISO 10650, radiant exitance).
    await screen.reads(main, /below the floor .*99 mW\/cm²/);
    await screen.tap("Enter a reading");
    await dialog.getByLabel("Takes the place of").selectOption({ index: 1 });
    const time = await dialog.getByLabel("Read on").inputValue();
    expect(time).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d$/);
    await dialog.getByLabel("Value").fill("605");
    await screen.tap("Save", dialog);
    await screen.reads(main, /as it should be .*605 mW\/cm² yes .*99 mW\/cm² no, replaced/);
    const { lights } = await screen.ask<AnswerOf<"listLights">>("/lights");
    const read = lights.find(({ name }) => name.startsWith("Lumen Two"))!.readings;
    const [wrong, right] = [99, 605].map((value) =>
      read.find(({ irradianceMwCm2 }) => irradianceMwCm2 === value),
    );
    expect(right?.readAt).toBe(wrong?.readAt);
    await screen.close();
  });

  journey("are added with a soft start, and taken out of use", async () => {
    const screen = await openPart("assistant", "lights");
    const { page } = screen;
    const main = page.getByRole("main");
    await screen.tap("Add a light");
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel("Name", { exact: true }).fill("Lumen Three (fictional)");
    await dialog.getByLabel("Output").selectOption("rising");
    await dialog.getByLabel("Beginning with").fill("10");
    await screen.tap("Save", dialog);
    await screen.reads(main, /Lumen Three \(fictional\) none never read/);
    await screen.tap(/^Lumen Three/);
    await screen.reads(main, /never read .*5 s from 10 to 100 % No reading in this mode yet/);
    await screen.tap("Change");
    await dialog.getByLabel("It is not used any more").check();
    await screen.tap("Save", dialog);
    await dialog.waitFor({ state: "detached" });
    await screen.reads(main, /not used any more/);
    expect(await page.getByRole("button", { name: "Enter a reading" }).count()).toBe(0);
    await screen.close();
  });
});

describe("storage out of its range", () => {
  journey("is entered by an assistant and settled by a dentist", async () => {
    const assistant = await openPart("assistant", "temperatures");
    const main = assistant.page.getByRole("main");
    const day = new Date(Date.now() - 2 * 86_400_000).toISOString().slice(0, 10);
    await assistant.tap("Enter an excursion");
    const dialog = assistant.page.getByRole("dialog");
    await dialog.getByLabel("Place").selectOption({ label: "Store" });
    await dialog.getByLabel("From").fill(`${day}T22:00`);
    await dialog.getByLabel("Until").fill(`${day}T21:00`);
    await assistant.tap("Enter it", dialog);
    await assistant.reads(dialog, /the end lies after the beginning.*Say how cold or how warm/);
    await dialog.getByLabel("Until").fill(`${day}T23:30`);
    await dialog.getByLabel("Highest").fill("31.5");
    await assistant.tap("Enter it", dialog);
    await assistant.reads(
      main,
      /Store .*31.5 °C .*not settled .*A dentist or the owner settles it/,
    );
    await assistant.reads(main, /\d × Alder Primer \(keep at 2 °C to 25 °C\) outside/);
    await looksRight(assistant);
    await assistant.page.getByLabel("Standing").selectOption("yes");
    await assistant.page.waitForURL(/\?settled=yes$/);
    await assistant.reads(main, /Nothing fits/);
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
    await dentist.reads(page.getByRole("main"), /settled Within what .*Dr. Noor Falk/);
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
