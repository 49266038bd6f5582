import type { ReactNode } from "react";
import type { Verdict } from "#domain";
import { sayVerdict } from "#texts";
import { useLanguage } from "../texts/Texts.tsx";

const block =
  "M9 3 h22 a6 6 0 0 1 6 6 v22 a6 6 0 0 1 -6 6 h-22 a6 6 0 0 1 -6 -6 v-22 a6 6 0 0 1 6 -6 z";
const slot = "M7.9 27.3 l4.8 4.8 L32.1 12.7 l-4.8 -4.8 z";

/**
 * The three shapes of a verdict, taken from the tubule itself and told apart without colour:
 * clear is one whole disc, a sealed end; caution a disc in two halves that do not meet; stop a
 * square block with a slot that nothing passes.
 */
export function VerdictShape({ verdict }: { verdict: Verdict }): ReactNode {
  return (
    <svg className={`verdict-shape ${verdict}`} viewBox="0 0 40 40" aria-hidden="true">
      {verdict === "clear" ? (
        <>
          <circle cx="20" cy="20" r="17" fill="none" stroke="currentColor" strokeWidth="3.5" />
          <circle cx="20" cy="20" r="10.5" fill="currentColor" />
        </>
      ) : null}
      {verdict === "caution" ? (
        <>
          <path d="M16.5 3.5 A16.8 16.8 0 0 0 16.5 36.5 Z" fill="currentColor" />
          <path
            d="M25.2 5.2 A15 15 0 0 1 25.2 34.8 Z"
            fill="none"
            stroke="currentColor"
            strokeWidth="3.4"
          />
        </>
      ) : null}
      {verdict === "stop" ? (
        <path fillRule="evenodd" fill="currentColor" d={`${block} ${slot}`} />
      ) : null}
    </svg>
  );
}

/** The verdict as shape and word in a line of a list. */
export function VerdictWord({ verdict }: { verdict: Verdict }): ReactNode {
  const { language } = useLanguage();
  return (
    <span className={`verdict-word ${verdict}`}>
      <VerdictShape verdict={verdict} />
      {sayVerdict(language, verdict)}
    </span>
  );
}
