/** Secure and plain addresses in the browser, and the page that makes a device trust. */
import { X509Certificate } from "node:crypto";
import { readFile } from "node:fs/promises";
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { preparePlaces } from "./demo-places.ts";
import { inspect, waitUntilShown } from "./every-page.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

// A name of the network as a tablet would use it; it leads back to this machine.
const served = serve([], ["--host-resolver-rules=MAP office-pc.local 127.0.0.1"]);
const plainAddress = async () =>
  `http://office-pc.local:${await served.says(/^Tubule is ready at http:\/\/localhost:(\d+)$/)}`;
const secureAddress = () => served.says(/^On this PC also at (https:\/\/localhost:\d+)/);

const notice = ({ page }: Screen) => page.locator(".no-camera");

describe("the page that makes a device trust Tubule", () => {
  for (const [language, title] of [
    ["en", "Let this device trust Tubule"],
    ["de", "Dieses Gerät soll Tubule vertrauen"],
  ] as const) {
    journey(`is fit for use in ${language}, by day and by night`, async () => {
      const screen = await served.open({ locale: language });
      const { page } = screen;
      await page.goto("/trust");
      await page.getByRole("heading", { name: title }).waitFor();
      expect(await page.locator("html").getAttribute("lang")).toBe(language);
      await page.locator("details").evaluateAll((all) => {
        for (const each of all) each.setAttribute("open", "");
      });
      expect(await inspect(screen, "day")).toEqual([]);
      expect(await inspect(screen, "night")).toEqual([]);
      await screen.close();
    });
  }

  journey("changes its language by a tap, and hands out the authority", async () => {
    const screen = await served.open();
    const { page } = screen;
    await page.goto("/trust");
    await screen.tap("Deutsch");
    await page.getByRole("heading", { name: "Dieses Gerät soll Tubule vertrauen" }).waitFor();
    await screen.tap("English");
    const shown = (await page.locator("code").innerText()).replace(/\s/g, "");
    for (const [link, name] of [
      ["Download tubule-ca.crt", "tubule-ca.crt"],
      ["The same as tubule-ca.pem", "tubule-ca.pem"],
    ] as const) {
      const downloading = page.waitForEvent("download");
      await screen.tap(link);
      const download = await downloading;
      expect(download.suggestedFilename()).toBe(name);
      const certificate = new X509Certificate(await readFile(await download.path()));
      expect([certificate.ca, certificate.fingerprint256]).toEqual([true, shown]);
    }
    await screen.close();
  });
});

describe("a tablet", () => {
  journey("has a camera at the secure address, and a session of its own there", async () => {
    // What the tablet's trust is worth is tested with node's TLS; here it is taken as given.
    const screen = await served.open({ baseURL: await secureAddress(), ignoreHTTPSErrors: true });
    await screen.signIn("assistant");
    await waitUntilShown(screen);
    const has = await screen.page.evaluate(() => ({
      secure: window.isSecureContext,
      camera: typeof navigator.mediaDevices?.getUserMedia,
      wakeLock: "wakeLock" in navigator,
    }));
    expect(has).toEqual({ secure: true, camera: "function", wakeLock: true });
    expect(await notice(screen).count()).toBe(0);
    const cookies = await screen.context.cookies();
    expect(cookies.map(({ name, secure }) => [name, secure])).toEqual([
      ["__Host-tubule_session", true],
    ]);
    // The plain address of the same machine neither has this session nor takes it away.
    const port = await served.says(/^Tubule is ready at http:\/\/localhost:(\d+)$/);
    await screen.page.goto(`http://localhost:${port}/`);
    await screen.page.getByRole("heading", { name: "Sign in" }).waitFor();
    await screen.page.goto(await secureAddress());
    await screen.page.getByRole("navigation", { name: "Pages" }).waitFor();
    await screen.close();
  });

  journey("can use every page at a plain address, and is told why it has no camera", async () => {
    const [dentist, owner] = [await served.open(), await served.open()];
    await dentist.signIn("dentist");
    await owner.signIn("owner");
    const places = await preparePlaces(dentist, owner);
    // The PC itself needs no such word.
    expect(await notice(owner).count()).toBe(0);
    await Promise.all([dentist.close(), owner.close()]);

    const baseURL = await plainAddress();
    for (const who of ["dentist", "owner"] as const) {
      const screen = await served.open({ baseURL });
      await screen.signIn(who);
      await screen.reads(notice(screen), /^No camera here: this address is not secure\./);
      const has = await screen.page.evaluate(() => [
        window.isSecureContext,
        typeof navigator.mediaDevices,
        typeof crypto.randomUUID,
      ]);
      expect(has).toEqual([false, "undefined", "undefined"]);
      // Before somebody is signed in, the browser notes that nobody is.
      screen.faults.splice(0);
      const faulty: Record<string, string[]> = {};
      for (const { name, path } of places.filter((place) => place.who === who)) {
        await screen.page.goto(path);
        await waitUntilShown(screen);
        const faults = screen.faults.splice(0);
        if (faults.length > 0) faulty[name] = faults;
      }
      expect(faulty).toEqual({});
      await screen.close();
    }
  });

  journey(
    "is led from there to the page and the secure address, until it has understood",
    async () => {
      const screen = await served.open({ baseURL: await plainAddress() });
      const { page } = screen;
      await screen.signIn("assistant");
      await notice(screen).waitFor();
      screen.faults.splice(0);
      expect(await inspect(screen, "day")).toEqual([]);
      expect(await inspect(screen, "night")).toEqual([]);
      const links = notice(screen).getByRole("link");
      const addresses = await links.evaluateAll((all) =>
        all.map((each) => each.getAttribute("href")),
      );
      expect(addresses).toEqual(["/trust", await secureAddress()]);
      await links.first().click();
      await page.getByRole("heading", { name: "Let this device trust Tubule" }).waitFor();
      await page.goBack();
      await screen.tap("Understood");
      await notice(screen).waitFor({ state: "detached" });
      await page.reload();
      await waitUntilShown(screen);
      expect(await notice(screen).count()).toBe(0);
      await screen.close();
    },
  );

  journey("scans at the plain address as at any other", async () => {
    const screen = await served.open({ baseURL: await plainAddress() });
    await screen.signIn("assistant");
    await waitUntilShown(screen);
    await screen.page.goto("/shelf");
    await waitUntilShown(screen);
    const code = /\b(C[0-9A-Z]{2}-[0-9A-Z]{4})\b/;
    const [, shown = ""] = await screen.reads(screen.page.getByRole("main"), code);
    await screen.scan(shown);
    await screen.page.waitForURL(/\/shelf\/[0-9a-f-]{36}/);
    await screen.close();
  });
});
