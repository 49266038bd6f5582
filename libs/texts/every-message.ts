import { de } from "./de.ts";
import { en, type Messages } from "./en.ts";

/** The messages that are there from the start: on a server those of every language. */
export const firstMessages: Partial<Record<"en" | "de", Messages>> = { en, de };
