/** What can be measured of a page: faults of accessibility, width and size of what is tapped. */
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";

/** The sizes that matter: a tablet across, a desk screen, a phone. */
export const sizes = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
  { width: 390, height: 844 },
] as const;

/** Gloved fingers; WCAG 2.2 asks for 24 px (2.5.8), 44 px at its highest level (2.5.5). */
const targetPx = 48;

/** Serious and critical findings of axe, each with the places it was found at. */
export async function listAxeFindings(page: Page): Promise<string[]> {
  // Without frames on the page, one run in it tells all; what is in order need not be told.
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .options({ resultTypes: ["violations"] })
    .analyze();
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => {
      const places = nodes.map(({ target, any }) => `${target.join(" ")} (${any[0]?.message})`);
      return `${id}: ${places.slice(0, 3).join("; ")}`;
    });
}

/** By how many pixels the page is wider than its window: people scroll down, not across. */
export const measureOverhang = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    return scrollWidth - clientWidth;
  });

/**
 * Controls on the page that are lower than a gloved finger needs. A box to tick is tapped by its
 * label. A link inside a sentence is as high as its line (the exception of WCAG 2.2, 2.5.8).
 */
export const listSmallTargets = (page: Page): Promise<string[]> =>
  page.evaluate((lowest) => {
    const controls = document.querySelectorAll<HTMLElement>(
      ":is(main, dialog, .camera) :is(a, button, input, select, textarea, summary)",
    );
    return Array.from(controls).flatMap((control) => {
      const isMark = control.matches("[type=checkbox], [type=radio]");
      const target = (isMark ? control.closest("label") : null) ?? control;
      const { height, width } = target.getBoundingClientRect();
      const parent = control.parentElement;
      const beside = (parent?.textContent ?? "").replace(control.textContent ?? "", "").trim();
      const isInSentence = control.matches("a") && parent?.matches("p") === true && beside !== "";
      if (width === 0 || height >= lowest - 0.5 || isInSentence) return [];
      const name = (control.ariaLabel ?? control.textContent ?? "").trim().slice(0, 30);
      return [`${control.tagName} ${control.className} “${name}” ${Math.round(height)} px`];
    });
  }, targetPx);
