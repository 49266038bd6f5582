import { readRemembered, remember } from "../ui/remembered.ts";

export type Appearance = "automatic" | "light" | "dark";

export function readAppearance(): Appearance {
  const kept = readRemembered("appearance");
  return kept === "light" || kept === "dark" ? kept : "automatic";
}

/** Shows the page light or dark; "automatic" leaves it to the device. */
export function showAppearance(appearance: Appearance): void {
  if (appearance === "automatic") delete document.documentElement.dataset["appearance"];
  else document.documentElement.dataset["appearance"] = appearance;
}

export function chooseAppearance(appearance: Appearance): void {
  remember("appearance", appearance === "automatic" ? null : appearance);
  showAppearance(appearance);
}
