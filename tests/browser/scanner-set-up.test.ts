/** The scanner page: a scanner is set up by two scans, told what to change, and remembered. */
import { describe, expect } from "@jest/globals";
import { scannerSetUpSymbols } from "#labels";
import { journey } from "./browser.ts";
import { inspect } from "./every-page.ts";
import type { ScannerAtHost } from "./scanner-keys.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
const gs1 = `]d2${scannerSetUpSymbols[0]!.text}`;
const hibc = `]d1${scannerSetUpSymbols[1]!.text}`;
const label = "]d2010950600013435210yZ-Q_8\u001d21M7";

async function openPage(who: "assistant" | "office"): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn(who);
  await screen.page.goto("/practice/scanner");
  await screen.page.getByRole("heading", { name: "This device's scanner" }).waitFor();
  return screen;
}

/** Both symbols are scanned, each when it is shown. */
async function scanBoth(screen: Screen, at: ScannerAtHost, again = at): Promise<void> {
  const { page } = screen;
  await page.getByText("Scan this symbol.").waitFor();
  await screen.scan(gs1, at);
  await page.getByText("Now scan this one.").waitFor();
  await screen.scan(hibc, again);
  await page.locator(".scanner-result").waitFor();
}

describe("the scanner page", () => {
  journey("shows both symbols as pictures that the server draws", async () => {
    const screen = await openPage("assistant");
    const { page } = screen;
    await screen.tap("Set the scanner up");
    const isDrawn = () =>
      page.waitForFunction(() => {
        const image = document.querySelector<HTMLImageElement>(".scanner-symbol img");
        return image !== null && image.complete && image.naturalWidth > 0;
      });
    await isDrawn();
    await screen.scan(hibc);
    await page.getByText("That was not the symbol shown.").waitFor();
    await screen.scan(gs1);
    await page.getByText("Now scan this one.").waitFor();
    for (const name of ["Code 128 (bars)", "Code 39 (wide bars)"]) {
      await page.getByText(name).click();
      await isDrawn();
    }
    expect(screen.faults.filter((fault) => !fault.includes("401"))).toEqual([]);
    await screen.close();
  });

  journey("sets a US scanner with F8 for separators right on a German host", async () => {
    const screen = await openPage("assistant");
    const { page } = screen;
    const at = { host: "DE", separator: "{F8}" } as const;
    await screen.tap("Set the scanner up");
    await scanBoth(screen, at);
    const result = page.locator(".scanner-result");
    await screen.reads(result, /The scanner is set up.*different keyboards.*\{F8\} is taken/);
    await screen.tap("Done");
    await page.goto("/practice/cautions");
    await page.getByRole("heading", { level: 1 }).waitFor();
    await screen.scan(label, at);
    const dialog = page.getByRole("dialog", { name: "What is this?" });
    await screen.reads(dialog, /Lot yZ-Q_8 Serial M7/);
    await screen.close();
  });

  journey("refuses a scanner that drops separators, and keeps nothing of it", async () => {
    const screen = await openPage("assistant");
    const { page } = screen;
    await screen.tap("Set the scanner up");
    await scanBoth(screen, { separator: "" });
    const result = page.locator(".scanner-result");
    await screen.reads(
      result,
      /must be changed first.*Change on the scanner The separator between/,
    );
    await screen.tap("Done");
    await screen.reads(page.getByRole("main"), /Not yet set up/);
    await screen.close();
  });

  journey("shows what arrives, key for key, and takes it nowhere", async () => {
    const screen = await openPage("assistant");
    const { page } = screen;
    await screen.tap("Begin");
    await screen.scan(label);
    const shown = page.locator(".scanner-arrived");
    await screen.reads(
      shown,
      /Typed \]d2010950600013435210yZ-Q_8‹GS›21M7‹CR›.*ms apart.*Lot yZ-Q_8/,
    );
    expect(await page.getByRole("dialog").count()).toBe(0);
    await screen.close();
  });

  journey("has no fault of light, size or reach at any of its steps", async () => {
    const screen = await openPage("assistant");
    const { page } = screen;
    screen.faults.splice(0);
    const faults: string[][] = [];
    const look = async () => {
      faults.push(await inspect(screen, "day"), await inspect(screen, "night"));
    };
    await screen.tap("Begin");
    await screen.scan(label);
    await page.locator(".scanner-arrived dl").first().waitFor();
    await look();
    await screen.tap("End");
    await screen.tap("Set the scanner up");
    await page.getByRole("img", { name: "GS1 DataMatrix" }).waitFor();
    await look();
    await scanBoth(screen, { separator: "" });
    await look();
    expect(faults.flat()).toEqual([]);
    await screen.close();
  });

  journey("keeps a profile with a registered tablet, for when its browser forgets", async () => {
    const screen = await openPage("office");
    const { page } = screen;
    await page.goto("/practice/tablets");
    await page.getByLabel("What it is called").fill("Operatory 1");
    await screen.tap("Register it");
    await screen.reads(page.getByRole("main"), /registered as Operatory 1/);
    await page.goto("/practice/scanner");
    await screen.reads(page.getByRole("main"), /Longest gap/);
    await screen.tap("Set the scanner up");
    await scanBoth(screen, { end: "Tab" });
    await screen.tap("Done");
    await screen.reads(
      page.getByRole("main"),
      /Kept on this device and with the tablet Operatory 1/,
    );
    await page.goto("/practice/tablets");
    await screen.reads(page.getByRole("table"), /Operatory 1 .* set up on /);
    // Signed in anew, the session knows of the tablet; the browser no more of its scanner.
    await page.evaluate(() => localStorage.removeItem("tubule.scanner"));
    await page.goto("/sign-in");
    await screen.tap("Sign in with name and password");
    await page.getByLabel("Sign-in name").fill("office");
    await page.getByLabel("Password").fill("demo-office");
    await screen.tap("Sign in");
    await page.getByRole("navigation", { name: "Pages" }).waitFor();
    await page.goto("/practice/scanner");
    await screen.reads(page.getByRole("main"), /Set up on .* End of a scan Tab/);
    await screen.close();
  });
});
