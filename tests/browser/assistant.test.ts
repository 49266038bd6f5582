import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { serveDemonstration } from "./served.ts";

const served = serveDemonstration();

describe("an assistant", () => {
  journey("sees the tray", async () => {
    const screen = await served.open();
    await screen.signIn("assistant");
    const { page } = screen;
    console.log(await page.locator("body").innerText());
    await page.getByRole("link", { name: /C-1007/ }).click();
    await page.getByRole("heading", { name: /C-1007/ }).waitFor();
    console.log(await page.locator("main").innerText());
    await page.getByRole("textbox").first().focus();
    await screen.scan("]d20109520000001018" + "\u001d" + "10AB-1");
    await new Promise((r) => setTimeout(r, 1500));
    console.log(await page.getByRole("textbox").first().inputValue());
    console.log(await page.locator("body").innerText());
    console.log(screen.faults);
    expect(1).toBe(1);
  });
});
