import { useState, type ReactNode } from "react";
import { applyScannerProfile, scannerFaultOf, type ScannerProfile } from "#labels";
import { sayLabelProblem } from "#texts";
import { useDeviceProfile } from "../scanner/device-profile.ts";
import { useBursts } from "../scanner/ScanProvider.tsx";
import { readBurst, type Scan } from "../scanner/scan.ts";
import { showEvery } from "../scanner/show-controls.ts";
import { playSound } from "../scanner/sounds.ts";
import { LabelFacts } from "../scanner/WhatIsThis.tsx";
import type { Burst } from "../scanner/wedge.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";

const endings = /[\r\n\t]+$/;

/** Shows what a scanner sends, key for key, and takes it nowhere. */
export function ScannerTryOut(): ReactNode {
  const { tryOut: t } = useTexts().scanner;
  const [isOn, switchOn] = useState(false);
  const [burst, setBurst] = useState<Burst | null>(null);
  const take = (arrived: Burst) => {
    playSound("taken");
    setBurst(arrived);
  };
  useBursts(isOn ? take : null);
  return (
    <section className="panel">
      <div className="panel-head">
        <h2>{t.title}</h2>
        <Button onClick={() => switchOn(!isOn)}>{isOn ? t.end : t.begin}</Button>
      </div>
      <p>{t.lead}</p>
      {isOn ? (
        <div role="status" className="scanner-arrived">
          {burst === null ? <p className="scanner-wait">{t.nothing}</p> : <Arrived burst={burst} />}
        </div>
      ) : null}
    </section>
  );
}

/** A burst without what ended it, as the listener to keys would have given it. */
function withoutEnd(burst: Burst): { burst: Burst; endKey: ScannerProfile["endKey"] } {
  const [end = ""] = endings.exec(burst.typed) ?? [];
  const cut = (text: string) => text.replace(endings, "");
  const plain = { ...burst, typed: cut(burst.typed), byPosition: cut(burst.byPosition) };
  return { burst: plain, endKey: end === "" ? "none" : end.startsWith("\t") ? "Tab" : "Enter" };
}

function Arrived({ burst }: { burst: Burst }): ReactNode {
  const { tryOut: t, now } = useTexts().scanner;
  const { today } = useFormats();
  const { profile } = useDeviceProfile();
  const { typed, byPosition, gapsMs, capsLock } = burst;
  const { burst: plain, endKey } = withoutEnd(burst);
  const raw = applyScannerProfile(profile, plain);
  const gaps = t.gaps(Math.min(...gapsMs), Math.max(...gapsMs));
  const texts: [string, string][] = [[t.typed, typed]];
  if (byPosition !== typed) texts.push([t.byPosition, byPosition]);
  if (raw !== plain.typed) texts.push([t.raw, raw]);
  return (
    <>
      <dl className="facts">
        {texts.map(([name, text]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd className="code">{showEvery(text)}</dd>
          </div>
        ))}
        <div>
          <dt>{t.ended}</dt>
          <dd>{now.endKeys[endKey]}</dd>
        </div>
        <div>
          <dt>{t.gapsLabel}</dt>
          <dd>
            {gapsMs.length + 1}, {gaps}
          </dd>
        </div>
      </dl>
      {capsLock ? <p className="field-error">{t.capsLock}</p> : null}
      <h3>{t.reads}</h3>
      <Read scan={readBurst(plain, profile, today())} />
    </>
  );
}

function Read({ scan }: { scan: Scan }): ReactNode {
  const { language } = useFormats();
  if (scan.reading.kind !== "unreadable") return <LabelFacts scan={scan} />;
  const { error } = scan.reading.refused;
  return <p>{sayLabelProblem(language, error.kind, scannerFaultOf(error))}</p>;
}
