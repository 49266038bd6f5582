/** Apart from the other texts, so that only the pages that say so fetch them. */
import type { SurfaceNeed } from "#domain";
import { fill } from "./fill.ts";
import type { Language } from "./format.ts";
import { surfaceNeedsDe, surfaceSourcesDe } from "./surface-needs-de.ts";
import { surfaceNeedsEn, surfaceSourcesEn } from "./surface-needs-en.ts";

/** The texts by language: of each need, and of where it comes from. */
export const surfaceNeedTexts = {
  en: { needs: surfaceNeedsEn, sources: surfaceSourcesEn },
  de: { needs: surfaceNeedsDe, sources: surfaceSourcesDe },
} satisfies Record<Language, object>;

/** What a sealed surface needs, in words: a title, what to do, and where that comes from. */
export function saySurfaceNeed(
  language: Language,
  { code, numbers, source }: Pick<SurfaceNeed, "code" | "numbers" | "source">,
): { title: string; sentence: string; source: string } {
  const { needs, sources } = surfaceNeedTexts[language];
  const { title, sentence } = needs[code];
  const said =
    typeof sentence === "string" ? sentence : sentence[numbers["reason"] as keyof typeof sentence];
  return { title, sentence: fill(language, said, numbers), source: sources[source] };
}
