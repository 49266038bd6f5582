import type { ReactNode } from "react";
import type { SurfaceNeedView } from "#contracts/waiting";
import { saySurfaceNeed } from "#texts/say-surface-need";
import { useLanguage } from "../texts/Texts.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import "./waiting.css";

/** What a sealed surface needs, step by step as it is done, each with where it comes from. */
export function NeedsList({ needs }: { needs: readonly SurfaceNeedView[] }): ReactNode {
  const { language } = useLanguage();
  return (
    <ol className="surface-list">
      {needs.map((need) => {
        const { title, sentence, source } = saySurfaceNeed(language, need);
        return (
          <li key={need.code} className={need.level}>
            {need.level === "caution" ? <VerdictShape verdict="caution" /> : null}
            <div>
              <p className="surface-title">{title}</p>
              <p>{sentence}</p>
              <p className="hint">{source}</p>
            </div>
          </li>
        );
      })}
    </ol>
  );
}
