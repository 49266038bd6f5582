/** A page in the browser as a person has it before them: read, tapped, typed and scanned into. */
import type { BrowserContext, CDPSession, Locator, Page } from "playwright-core";
import { strokesOf, type ScannerAtHost } from "./scanner-keys.ts";

/** The demonstration's people, by what they do. */
const people = {
  assistant: "Asa Linden",
  dentist: "Dr. Noor Falk",
  office: "Kim Sandal",
  owner: "Toni Brook",
} as const;
export type PersonRole = keyof typeof people;

// A scanner at its usual speed; a slow one is at most 20 ms apart, a fast typist 60.
const gapMs = 8;
// Longer than anything here takes, even on a machine that does much else.
const limitMs = 15_000;

export class Screen {
  /** What the browser complained of: errors in scripts, refused policies, failed requests. */
  readonly faults: string[] = [];

  private byTouch = false;

  private constructor(
    readonly context: BrowserContext,
    readonly page: Page,
    private readonly keys: CDPSession,
  ) {}

  /** Taps are a finger's where the context has touch. */
  static async open(context: BrowserContext, byTouch = false): Promise<Screen> {
    context.setDefaultTimeout(limitMs);
    const page = await context.newPage();
    const screen = new Screen(context, page, await context.newCDPSession(page));
    screen.byTouch = byTouch;
    page.on("pageerror", (error) => screen.faults.push(String(error)));
    page.on("console", (message) => {
      const { url } = message.location();
      if (message.type() === "error") screen.faults.push(`${message.text()} ${url}`);
    });
    return screen;
  }

  close(): Promise<void> {
    return this.context.close();
  }

  /** Goes to the door and in, by the demonstration's own button. */
  async signIn(role: PersonRole): Promise<void> {
    await this.page.goto("/sign-in");
    await this.page.getByRole("button", { name: people[role] }).click();
    await this.page.getByRole("navigation", { name: "Pages" }).waitFor();
  }

  /** Goes in by name and password. */
  async signInAs(name: string, password: string): Promise<void> {
    await this.page.goto("/sign-in");
    await this.page.getByLabel("Sign-in name").fill(name);
    await this.page.getByLabel("Password").fill(password);
    await this.tap("Sign in");
    await this.page.getByRole("navigation", { name: "Pages" }).waitFor();
  }

  /** Asks the API in this person's name. */
  async ask<T>(path: string, body?: object): Promise<T> {
    const told = await this.page.evaluate(
      async ([address, text]) => {
        const key = { "Idempotency-Key": crypto.randomUUID() };
        const headers = { "Content-Type": "application/json", ...key };
        const answer = await fetch(
          address,
          text === null ? {} : { method: "POST", headers, body: text },
        );
        return { ok: answer.ok, body: (await answer.json()) as unknown };
      },
      [`/api/v1${path}`, body === undefined ? null : JSON.stringify(body)] as const,
    );
    if (!told.ok) throw new Error(`${path} was refused: ${JSON.stringify(told.body)}`);
    return told.body as T;
  }

  /** Waits until the text of a place matches; gives the match. */
  async reads(place: Locator, pattern: RegExp): Promise<RegExpExecArray> {
    const deadline = Date.now() + limitMs;
    for (;;) {
      const text = (await place.innerText()).replace(/\s+/g, " ");
      const match = pattern.exec(text);
      if (match) return match;
      if (Date.now() > deadline) throw new Error(`${pattern} was never read, but: ${text}`);
      await this.page.waitForTimeout(50);
    }
  }

  /** A tap on the button or link of that name, in the dialog or place given. */
  async tap(name: string | RegExp, place: Page | Locator = this.page): Promise<void> {
    const named = { name, exact: typeof name === "string" };
    const wanted = place.getByRole("button", named).or(place.getByRole("link", named));
    await (this.byTouch ? wanted.tap() : wanted.click());
  }

  /**
   * What a scanner on the USB port does: key after key at its speed, capitals with Shift, the
   * separator of GS1 as Ctrl and the bracket, Enter at the end. The times are the keys' own, so a
   * busy machine makes no slow scanner.
   */
  async scan(text: string, at: ScannerAtHost = {}): Promise<void> {
    let now = Date.now() / 1000;
    const sending = strokesOf(text, at).map((stroke) => {
      now += gapMs / 2000;
      return this.keys.send("Input.dispatchKeyEvent", { ...stroke, timestamp: now });
    });
    await Promise.all(sending);
  }
}
