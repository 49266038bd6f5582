/** Teeth as the practice writes them: FDI, Universal, Palmer; the chart by keyboard. */
import { afterAll, describe, expect } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { journey } from "./browser.ts";
import { listAxeFindings, listSmallTargets } from "./look.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
let screen: Screen | undefined;
afterAll(() => screen?.close());

async function setNotation({ page }: Screen, name: string): Promise<void> {
  await page.goto("/practice/teeth");
  await page.getByText(name, { exact: true }).click();
  const loaded = page.waitForEvent("load");
  await page.getByRole("button", { name: "Save" }).click();
  await loaded;
  await page.getByText(`Tooth numbers: ${name}.`).waitFor();
}

describe("a practice that writes teeth otherwise", () => {
  journey("sees and types them so, on tray, record and chart, with the system named", async () => {
    screen = await served.open();
    const { page } = screen;
    await screen.signIn("dentist");
    const main = page.getByRole("main");
    await setNotation(screen, "Universal (ADA)");
    await screen.reads(main, /3: upper right first molar .*51: supernumerary beside/);
    await page.goto("/trays/plan");
    await page.getByLabel("Chart number").fill("C-3000");
    // FDI 16 is 3 and 55 is A in the Universal notation; 33 is no tooth there.
    await page.getByLabel("Teeth", { exact: true }).fill("3 a 33");
    await screen.tap("Plan the tray");
    await screen.reads(main, /One of them is no tooth in Universal/);
    await page.getByLabel("Teeth", { exact: true }).fill("3 a");
    await screen.reads(main, /3: upper right first molar · A: upper right primary second molar/);
    expect(await listAxeFindings(page)).toEqual([]);
    expect(await listSmallTargets(page)).toEqual([]);
    await screen.tap("Plan the tray");
    await screen.reads(main, /Tray for tooth 3, A/);
    const trayId = page.url().split("/").at(-1)!;
    const tray = await screen.ask<AnswerOf<"getTray">>(`/trays/${trayId}`);
    expect(tray.teeth.map(({ tooth }) => tooth)).toEqual(["16", "55"]);

    await setNotation(screen, "Palmer, with letters for the quadrant");
    await page.goto(`/trays/${trayId}`);
    await screen.reads(main, /Tray for tooth UR6, URE/);
    await page.goto("/records");
    await page.getByLabel("Tooth", { exact: true }).fill("lr6");
    await screen.tap("Search");
    await screen.reads(main, /LR6/);
    expect(new URL(page.url()).searchParams.get("tooth")).toBe("46");
    await setNotation(screen, "FDI (ISO 3950)");
    await page.goto(`/trays/${trayId}`);
    await screen.reads(main, /Tray for tooth 16, 55/);
  });

  journey("chooses teeth on the chart by keyboard alone", async () => {
    const { page } = screen!;
    await page.goto("/trays/plan");
    const upper = page.getByRole("group", { name: "upper" });
    await upper.getByRole("button", { name: "16", exact: true }).focus();
    await page.keyboard.press("Space");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    const teeth = page.getByLabel("Teeth", { exact: true });
    expect(await teeth.inputValue()).toBe("16 15");
    await page.keyboard.press("Enter");
    expect(await teeth.inputValue()).toBe("16");
    const pressed = upper.getByRole("button", { pressed: true });
    expect(await pressed.allInnerTexts()).toEqual(["16"]);
  });
});
