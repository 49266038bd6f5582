import type { Language } from "./format.ts";
import { paperDe } from "./paper-de.ts";
import { paperEn } from "./paper-en.ts";

const paper: Readonly<Record<Language, typeof paperEn>> = { en: paperEn, de: paperDe };

/** What stands on paper, in a language. Papers are made by the server: no browser fetches this. */
export const getPaper = (language: Language): typeof paperEn => paper[language];
