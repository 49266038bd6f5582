import type { Messages } from "./en.ts";

/** In a browser none are there from the start: it fetches the language in use, and no other. */
export const firstMessages: Partial<Record<"en" | "de", Messages>> = {};
