import type { ReactNode } from "react";
import type { ScannerProfile } from "#labels";
import { useDeviceProfile } from "../scanner/device-profile.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Choice } from "../ui/Field.tsx";
import type { KeepScanner } from "./useKeepScanner.ts";

const endKeys = ["either", "Enter", "Tab", "none"] as const;
const gaps = [20, 35, 45, 60] as const;
const counts = [4, 6, 8, 12] as const;

/** What the set-up found may lie between the usual choices. */
const choicesWith = (usual: readonly number[], value: number): number[] =>
  [...new Set([...usual, value])].sort((a, b) => a - b);

/** Timing and end key by hand, for a scanner that the set-up does not get right. */
export function ScannerSettings({ keep }: Pick<KeepScanner, "keep">): ReactNode {
  const { settings: t, now } = useTexts().scanner;
  const announce = useAnnounce();
  const { profile, setUpAt } = useDeviceProfile();
  const change = (part: Partial<ScannerProfile>) => {
    keep({ profile: { ...profile, ...part }, setUpAt });
    announce({ text: t.saved });
  };
  const numbers = (usual: readonly number[], value: number, say: (one: number) => string) =>
    choicesWith(usual, value).map((one) => ({ value: String(one), label: say(one) }));
  return (
    <section className="panel">
      <h2>{t.title}</h2>
      <p className="hint">{t.hint}</p>
      <div className="form">
        <Choice
          label={now.endKey}
          value={profile.endKey}
          options={endKeys.map((value) => ({ value, label: now.endKeys[value] }))}
          onChoose={(endKey) => change({ endKey })}
        />
        <Choice
          label={now.gap}
          value={String(profile.maxGapMs)}
          options={numbers(gaps, profile.maxGapMs, now.milliseconds)}
          onChoose={(gap) => change({ maxGapMs: Number(gap) })}
        />
        <Choice
          label={now.keys}
          value={String(profile.minKeys)}
          options={numbers(counts, profile.minKeys, String)}
          onChoose={(count) => change({ minKeys: Number(count) })}
        />
      </div>
    </section>
  );
}
