import type { ReactNode } from "react";
import type { Certainty } from "./sums.ts";

/** How sure it is, by shape: whole is certain, half is inferred, a broken ring is possible. */
export function CertaintyMark({ certainty }: { certainty: Certainty }): ReactNode {
  return (
    <svg className="certainty-mark" viewBox="0 0 24 24" aria-hidden="true">
      {certainty === "certain" ? <circle cx="12" cy="12" r="10" fill="currentColor" /> : null}
      {certainty === "inferred" ? (
        <>
          <circle cx="12" cy="12" r="9" fill="none" stroke="currentColor" strokeWidth="2.5" />
          <path d="M12 3 A9 9 0 0 0 12 21 Z" fill="currentColor" />
        </>
      ) : null}
      {certainty === "possible" ? (
        <circle
          cx="12"
          cy="12"
          r="9"
          fill="none"
          stroke="currentColor"
          strokeWidth="2.5"
          strokeDasharray="4.2 3.4"
        />
      ) : null}
    </svg>
  );
}
