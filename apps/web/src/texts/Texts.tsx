import { createContext, useContext, useEffect, useMemo, useState, type ReactNode } from "react";
import { addMessages, type Messages } from "#texts";
import type { ScreenTexts } from "#texts/screens-en";
import { readRemembered, remember } from "../ui/remembered.ts";

export type Language = "en" | "de";
export const languages: readonly Language[] = ["en", "de"];

/** Each language by its own name, for whoever cannot read the one on screen. */
const names: Readonly<Record<Language, string>> = { en: "English", de: "Deutsch" };
export const nameOfLanguage = (language: Language): string => names[language];

// Only the language in use is loaded: the texts are a good part of the first page.
const loaders: Readonly<Record<Language, () => Promise<[ScreenTexts, Messages]>>> = {
  en: async () => {
    const [screens, messages] = [import("#texts/screens-en"), import("#texts/en")];
    return [(await screens).screensEn, (await messages).en];
  },
  de: async () => {
    const [screens, messages] = [import("#texts/screens-de"), import("#texts/de")];
    return [(await screens).screensDe, (await messages).de];
  },
};
const loaded = new Map<Language, ScreenTexts>();

async function loadTexts(language: Language): Promise<void> {
  if (loaded.has(language)) return;
  const [screens, messages] = await loaders[language]();
  addMessages(language, messages);
  loaded.set(language, screens);
}

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

function readFirstLanguage(): Language {
  const ofBrowser = navigator.language.slice(0, 2);
  return readChosen() ?? (isLanguage(ofBrowser) ? ofBrowser : "en");
}

/** Loads the texts that the first page is shown in, and says in which language they are. */
export async function loadFirstTexts(): Promise<Language> {
  const language = readFirstLanguage();
  await loadTexts(language);
  return language;
}

interface LanguageProviderProps {
  /** The language already loaded. */
  first: Language;
  children: ReactNode;
}

/** Chooses the language: this device's own choice, else the practice's, else the browser's. */
export function LanguageProvider({ first, children }: LanguageProviderProps): ReactNode {
  const [chosen, setChosen] = useState(readChosen);
  const [ofPractice, followPractice] = useState<Language | null>(null);
  const wanted = chosen ?? ofPractice ?? first;
  const language = useLoaded(wanted, first);
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

/** The language wanted as soon as its texts are there; until then the one shown so far. */
function useLoaded(wanted: Language, first: Language): Language {
  const [shown, show] = useState(first);
  useEffect(() => {
    let isWanted = true;
    loadTexts(wanted).then(
      () => {
        if (isWanted) show(wanted);
      },
      () => {
        // Not reachable now: the page stays readable in the language it has.
      },
    );
    return () => {
      isWanted = false;
    };
  }, [wanted]);
  return shown;
}

export function useLanguage(): LanguageChoice {
  const choice = useContext(LanguageContext);
  if (choice === null) throw new Error("useLanguage outside of LanguageProvider");
  return choice;
}

/** The texts of the screens in the language chosen. */
export function useTexts(): ScreenTexts {
  const texts = loaded.get(useLanguage().language);
  if (texts === undefined) throw new Error("the texts of the language shown are not loaded");
  return texts;
}
