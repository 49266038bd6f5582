import type { ReactNode } from "react";
import { FindingNote, type FindingView } from "../ui/FindingNote.tsx";

interface FindingListProps {
  findings: readonly FindingView[];
  onPass: (finding: FindingView) => void;
}

/** Findings to be read from two metres. */
export function FindingList({ findings, onPass }: FindingListProps): ReactNode {
  return (
    <div className="chair-findings">
      {findings.map((finding) => (
        <FindingNote
          key={`${finding.code} ${finding.subject.itemId} ${finding.subject.stepKey}`}
          {...{ finding, onPass }}
        />
      ))}
    </div>
  );
}
