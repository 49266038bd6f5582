import { useState, type ReactNode } from "react";
import { usualScannerProfile, type ScannerProfile } from "#labels";
import { useDeviceProfile } from "../scanner/device-profile.ts";
import { showEvery } from "../scanner/show-controls.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { ScannerRun } from "./ScannerRun.tsx";
import { ScannerSettings } from "./ScannerSettings.tsx";
import { ScannerTryOut } from "./ScannerTryOut.tsx";
import { useKeepScanner, type KeepScanner } from "./useKeepScanner.ts";
import "./scanner.css";

/** The scanner at this device: how it is understood, its set-up, and a place to try it out. */
export function ScannerPart(): ReactNode {
  const { scanner: t } = useTexts();
  const keeping = useKeepScanner();
  const [isRunning, run] = useState(false);
  if (isRunning) return <ScannerRun keep={keeping.keep} onClose={() => run(false)} />;
  return (
    <>
      <p className="lead">{t.lead}</p>
      <Now keeping={keeping} onStart={() => run(true)} />
      <ScannerTryOut />
      <ScannerSettings keep={keeping.keep} />
    </>
  );
}

function Now({ keeping, onStart }: { keeping: KeepScanner; onStart: () => void }): ReactNode {
  const { now: t } = useTexts().scanner;
  const { dateTime } = useFormats();
  const announce = useAnnounce();
  const { profile, setUpAt, isKept } = useDeviceProfile();
  const isUsual = JSON.stringify(profile) === JSON.stringify(usualScannerProfile);
  const { tabletName, error, keep } = keeping;
  const forget = () => {
    keep({ profile: usualScannerProfile, setUpAt: null });
    announce({ text: t.forgotten });
  };
  return (
    <section className="panel">
      <h2>{t.title}</h2>
      <p>{setUpAt !== null ? t.setUp(dateTime(setUpAt)) : isUsual ? t.never : t.byHand}</p>
      <ProfileFacts profile={profile} />
      {isKept ? (
        <p className="hint">{tabletName === null ? t.onDevice : t.onTablet(tabletName)}</p>
      ) : null}
      {error === null ? null : (
        <>
          <p>{t.notSaved}</p>
          <ProblemNote error={error} />
        </>
      )}
      <div className="actions">
        <Button kind="main" onClick={onStart}>
          {setUpAt === null ? t.start : t.again}
        </Button>
        {isUsual && setUpAt === null ? null : <Button onClick={forget}>{t.forget}</Button>}
      </div>
    </section>
  );
}

function ProfileFacts({ profile }: { profile: ScannerProfile }): ReactNode {
  const { now: t } = useTexts().scanner;
  const { gsTokens, prefix, suffix, keyboard, endKey, maxGapMs, minKeys } = profile;
  const plain: [string, string][] = [[t.keyboard, t.keyboards[keyboard]]];
  const sent: [string, string[]][] = [
    [t.separator, gsTokens],
    [t.prefix, [prefix]],
    [t.suffix, [suffix]],
  ];
  const timing: [string, string][] = [
    [t.endKey, t.endKeys[endKey]],
    [t.gap, t.milliseconds(maxGapMs)],
    [t.keys, String(minKeys)],
  ];
  if (gsTokens.length === 0) plain.push([t.separator, t.separatorPlain]);
  return (
    <dl className="facts">
      {plain.map(([name, value]) => (
        <Fact key={name} {...{ name, value }} />
      ))}
      {sent.flatMap(([name, texts]) =>
        texts
          .filter((text) => text !== "")
          .map((text) => <Fact key={name + text} name={name} value={showEvery(text)} isCode />),
      )}
      {timing.map(([name, value]) => (
        <Fact key={name} {...{ name, value }} />
      ))}
    </dl>
  );
}

function Fact({ name, value, isCode = false }: { name: string; value: string; isCode?: boolean }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd className={isCode ? "code" : undefined}>{value}</dd>
    </div>
  );
}
