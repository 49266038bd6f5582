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

  journey(
    "takes over a list line by line, mends what is wrong, and plans nothing twice",
    async () => {
      const screen = await served.open();
      const { page } = screen;
      await screen.signIn("assistant");
      await page.goto("/trays");
      await screen.tap("Plan from a list");
      const list = "Akte;Zahn;Uhrzeit;Behandlung\nC-2201;16, 26;9:30;\nC-2202;99;10:00;Polishing\n";
      const file = { name: "list.csv", mimeType: "text/csv", buffer: Buffer.from(list) };
      await page.getByLabel("Or a file").setInputFiles(file);
      const rows = page.getByRole("list").getByRole("listitem");
      const first = page.getByRole("listitem", { name: "Line 1" });
      const second = page.getByRole("listitem", { name: "Line 2" });
      await screen.reads(first, /tooth 16, 26, .*09:30/);
      await screen.reads(second, /one is no tooth; there is no technique of that name/);
      expect(await listAxeFindings(page)).toEqual([]);
      expect(await listSmallTargets(page)).toEqual([]);
      await second.getByLabel("Teeth").fill("36");
      await second.getByLabel("Technique").selectOption({ index: 0 });
      await screen.reads(second, /tooth 36, .*10:00/);
      await screen.tap("Plan 2 visits");
      await screen.reads(first, /^planned/);
      expect(await rows.filter({ hasText: "planned" }).count()).toBe(2);
      await page.reload();
      await page.getByLabel("Or a file").setInputFiles(file);
      // Seen before anything is planned, and not offered again.
      await screen.reads(first, /was planned already/);
      await screen.reads(second, /one is no tooth/);
      expect(await page.getByRole("button", { name: /^Plan \d/ }).count()).toBe(0);
      await screen.tap("Open", first);
      await screen.reads(page.getByRole("main"), /Tray for tooth 16, 26/);
      await screen.close();
    },
  );
});
