/** A visit of several teeth is planned, and changed. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { listAxeFindings, listSmallTargets, measureOverhang } from "./look.ts";
import { serve } from "./served.ts";

const served = serve();

describe("planning", () => {
  journey("takes two teeth, each with its mode, and changes them later", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    await page.goto("/trays/plan");
    const main = page.getByRole("main");
    await page.getByLabel("Chart number").fill("C-2001");
    await main.getByText("Dentin sealing, universal adhesive").click();
    await screen.tap("16", page.getByRole("group", { name: "upper" }));
    await screen.tap("26", page.getByRole("group", { name: "upper" }));
    expect(await page.getByLabel("Teeth", { exact: true }).inputValue()).toBe("16 26");
    const second = page.getByRole("group", { name: "Tooth 26" });
    await second.getByText("etch-and-rinse", { exact: true }).click();
    await second.getByText("of resin").click();
    await second.getByLabel("Surfaces").fill("dox");
    await screen.tap("Plan the tray");
    await screen.reads(second, /Tooth 26 does not have these surfaces/);
    await second.getByLabel("Surfaces").fill("dom");
    expect(await listAxeFindings(page)).toEqual([]);
    expect(await listSmallTargets(page)).toEqual([]);
    await screen.tap("Plan the tray");
    await screen.reads(
      main,
      /Tooth 16 self-etch Tooth 26 MOD · etch-and-rinse · Provisional: of resin/,
    );
    // Both etching for the one tooth and keeping apart for its provisional are asked for.
    await screen.reads(main, /Etch enamel and dentin .*Separate/);

    await screen.tap("Change the visit");
    await screen.tap("26", page.getByRole("group", { name: "upper" }));
    await page.getByLabel("Time").fill("16:45");
    await screen.tap("Save");
    await screen.reads(main, /Tooth 16 self-etch/);
    await screen.reads(main, /16:45/);
    const steps = await page.getByRole("list", { name: /Steps of the technique/ }).innerText();
    expect(steps).not.toContain("Etch enamel and dentin");
    expect(await measureOverhang(page)).toBeLessThanOrEqual(0);
    await screen.close();
  });
});
