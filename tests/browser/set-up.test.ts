/** The first owner: makes the practice with the code that stands where the server was started. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { inspect, waitUntilShown } from "./every-page.ts";
import { serve } from "./served.ts";

const served = serve(["--empty"]);

describe("the first owner", () => {
  journey("makes the practice with the code from the console, and nobody without it", async () => {
    const screen = await served.open();
    const { page } = screen;
    await page.goto("/");
    await page.getByRole("heading", { name: "Set up Tubule" }).waitFor();
    await waitUntilShown(screen);
    // Before anybody is signed in, the browser notes the answer that nobody is.
    screen.faults.splice(0);
    expect(await inspect(screen, "day")).toEqual([]);

    await page.getByLabel("Set-up code").fill("not the code");
    await page.getByLabel("Name of the practice").fill("Trial practice");
    await page.getByLabel("Your name").fill("Dr. Robin Vale");
    await page.getByLabel("Sign-in name").fill("robin");
    await page.getByLabel("Password").fill("a sentence to remember");
    await screen.tap("Make the practice");
    await page.getByRole("alert").waitFor();
    await page.getByLabel("Set-up code").fill(await served.says(/enter this code once: (\S+)/));
    await screen.tap("Make the practice");
    await screen.reads(page.getByRole("main"), /No tray is planned for today/);
    await screen.reads(page.getByRole("banner"), /Dr. Robin Vale Trial practice/);
    await page.goto("/set-up");
    await page.getByRole("heading", { name: "Sign in" }).waitFor();
    await screen.close();
  });
});
