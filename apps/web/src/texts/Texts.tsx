import { createContext, useContext, useEffect, useMemo, useState, type ReactNode } from "react";
import { screensDe } from "#texts/screens-de";
import { screensEn, type ScreenTexts } from "#texts/screens-en";
import { readRemembered, remember } from "../ui/remembered.ts";

export type Language = "en" | "de";
export const languages: readonly Language[] = ["en", "de"];
const textsOf: Readonly<Record<Language, ScreenTexts>> = { en: screensEn, de: screensDe };

interface LanguageChoice {
  language: Language;
  /** Keeps the choice on this device; `null` follows the practice again. */
  choose: (language: Language | null) => void;
  /** What the practice speaks, told once somebody is signed in. */
  followPractice: (language: Language) => void;
}

const LanguageContext = createContext<LanguageChoice | null>(null);

function isLanguage(text: string | null | undefined): text is Language {
  return text === "en" || text === "de";
}

function readChosen(): Language | null {
  const kept = readRemembered("language");
  return isLanguage(kept) ? kept : null;
}

function languageOfBrowser(): Language {
  const first = navigator.language.slice(0, 2);
  return isLanguage(first) ? first : "en";
}

/** Chooses the language: this device's own choice, else the practice's, else the browser's. */
export function LanguageProvider({ children }: { children: ReactNode }): ReactNode {
  const [chosen, setChosen] = useState(readChosen);
  const [ofPractice, followPractice] = useState<Language | null>(null);
  const language = chosen ?? ofPractice ?? languageOfBrowser();
  useEffect(() => {
    document.documentElement.lang = language;
  }, [language]);
  const value = useMemo(
    () => ({
      language,
      followPractice,
      choose: (next: Language | null) => {
        remember("language", next);
        setChosen(next);
      },
    }),
    [language],
  );
  return <LanguageContext value={value}>{children}</LanguageContext>;
}

export function useLanguage(): LanguageChoice {
  const choice = useContext(LanguageContext);
  if (choice === null) throw new Error("useLanguage outside of LanguageProvider");
  return choice;
}

/** The texts of the screens in the language chosen. */
export function useTexts(): ScreenTexts {
  return textsOf[useLanguage().language];
}

export const nameOfLanguage = (language: Language): string => textsOf[language].languageName;
