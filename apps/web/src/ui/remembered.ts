/** Small choices kept on this device. A browser may refuse to keep them: then they last a page. */

const prefix = "tubule.";
const forThisPage = new Map<string, string>();

/** What was kept under a name, or `null`. */
export function readRemembered(name: string): string | null {
  try {
    return localStorage.getItem(prefix + name) ?? forThisPage.get(name) ?? null;
  } catch {
    return forThisPage.get(name) ?? null;
  }
}

/** Keeps a value under a name; `null` forgets it. */
export function remember(name: string, value: string | null): void {
  if (value === null) forThisPage.delete(name);
  else forThisPage.set(name, value);
  try {
    if (value === null) localStorage.removeItem(prefix + name);
    else localStorage.setItem(prefix + name, value);
  } catch {
    // Kept for this page only.
  }
}
