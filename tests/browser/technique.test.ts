/** A technique is copied from common practice, made the practice's own, and confirmed. */
import { describe, expect } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { journey } from "./browser.ts";
import { listAxeFindings, listSmallTargets, measureOverhang } from "./look.ts";
import { serve } from "./served.ts";

const served = serve();
const own = "Our sealing";

describe("a technique", () => {
  journey("is copied, changed step by step, and confirmed", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("dentist");
    await page.goto("/catalogue/techniques");
    const main = page.getByRole("main");
    const starters = main.getByText("Common practice, no source: not confirmed by a dentist");
    await starters.first().waitFor();
    await screen.tap(/^Open Dentin sealing, universal adhesive/);
    await screen.reads(main, /Not confirmed .*Common practice, no source/);
    await screen.reads(main, /Etch enamel etchant apply 30 s Only where: mode: selective enamel/);
    await screen.reads(main, /Resin coat .*light 2 mm away 0.2 to 1 mm thick/);
    expect(await page.getByRole("button", { name: "Confirm it" }).count()).toBe(0);
    await screen.tap("Copy and make it your own");
    await page.getByLabel("Name", { exact: true }).fill(own);
    const coat = page.getByRole("group", { name: /^\d\. Resin coat/ });
    await coat.getByLabel("Thickness from, mm").fill("much");
    await screen.tap("Save the copy");
    await screen.reads(coat, /A number within its bounds, or nothing/);
    // Turned round: the server says so, and it stands at the field.
    await coat.getByLabel("Thickness from, mm").fill("2");
    await screen.tap("Save the copy");
    await screen.reads(coat, /The thickness begins above its end/);
    const from = coat.getByLabel("Thickness from, mm");
    expect(await from.getAttribute("aria-invalid")).toBe("true");
    const fault = page.locator(`[id="${await from.getAttribute("aria-describedby")}"]`);
    await screen.reads(fault, /^The thickness begins above its end/);
    await coat.getByLabel("Thickness from, mm").fill("0.3");
    await screen.tap("Add a step");
    const added = page.getByRole("group", { name: /New step/ });
    await added.getByLabel("What is done").fill("Look with the loupe");
    const looked = page.getByRole("group", { name: /Look with the loupe/ });
    await screen.tap("Earlier", looked);
    await screen.reads(page.locator("body"), /Look with the loupe is now step 9/);
    // By the keyboard down to the end and up again: the focus stays with the step.
    await looked.getByRole("button", { name: "Later" }).focus();
    await page.keyboard.press("Enter");
    await screen.reads(looked, /^10\. Look/);
    const earlier = looked.getByRole("button", { name: "Earlier" });
    await earlier.and(page.locator(":focus")).waitFor();
    await page.keyboard.press("Enter");
    await screen.reads(looked, /^9\. Look/);
    await earlier.and(page.locator(":focus")).waitFor();
    expect(await listAxeFindings(page)).toEqual([]);
    expect(await listSmallTargets(page)).toEqual([]);
    expect(await measureOverhang(page)).toBeLessThanOrEqual(0);
    await screen.tap("Save the copy");
    await screen.reads(main, /Our sealing .*Version 1 .*the practice's own/);
    await screen.reads(main, /0.3 to 1 mm thick .*Look with the loupe no material Provisional/);
    await screen.tap("Confirm it");
    await screen.tap("Confirm it", page.getByRole("dialog"));
    await screen.reads(main, /Confirmed by Dr. Noor Falk/);
    await page.goto("/catalogue/techniques");
    await screen.reads(main, /Our sealing .*Confirmed by a dentist, \d/);
    await screen.close();
  });

  journey("keeps with a planned tray the version that it was planned with", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("dentist");
    const main = page.getByRole("main");
    const { techniques } = await screen.ask<AnswerOf<"listTechniques">>("/techniques");
    const { locations } = await screen.ask<AnswerOf<"listLocations">>("/locations");
    const first = techniques.find(({ name }) => name === own)!;
    const tray = await screen.ask<AnswerOf<"planTray">>("/trays", {
      chartNumber: "C-2100",
      teeth: [{ tooth: "16", mode: "self-etch" }],
      techniqueId: first.id,
      locationId: locations.find(({ kind }) => kind === "operatory")!.id,
      appointmentAt: new Date().toISOString(),
    });
    await page.goto(`/catalogue/techniques/${first.id}`);
    await screen.tap("Change: a new version");
    const looked = page.getByRole("group", { name: /Look with the loupe/ });
    await screen.tap("Take out", looked);
    await screen.tap("Save as a new version");
    await screen.reads(main, /Version 2 .*Not confirmed by a dentist/);
    await page.goto(`/trays/${tray.id}`);
    await screen.reads(main, /Look with the loupe/);
    await page.goto("/catalogue/techniques");
    await screen.reads(main, /Our sealing Sealing visit · Version 2/);
    await screen.close();
  });
});
