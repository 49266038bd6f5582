import type { ReactNode } from "react";
import { Cautions } from "../shell/About.tsx";
import { languages, nameOfLanguage, useLanguage, useTexts } from "../texts/Texts.tsx";
import { Choice } from "../ui/Field.tsx";
import "./door.css";

/** What stands around the pages before somebody is signed in. */
export function Door({ children }: { children: ReactNode }): ReactNode {
  const t = useTexts();
  const { language, choose } = useLanguage();
  return (
    <div className="door">
      <aside className="door-side" aria-label={t.about.title}>
        <svg className="door-mark" viewBox="0 0 200 200" aria-hidden="true">
          {tubules.map(({ x, y, radius, sealed }) => (
            <g key={`${x} ${y}`}>
              <circle cx={x} cy={y} r={radius} fill="none" stroke="currentColor" strokeWidth="3" />
              {sealed ? <circle cx={x} cy={y} r={radius * 0.55} fill="currentColor" /> : null}
            </g>
          ))}
        </svg>
        <p className="door-name">Tubule</p>
        <Cautions />
        <Choice
          label={t.menu.language}
          value={language}
          options={languages.map((value) => ({ value, label: nameOfLanguage(value) }))}
          onChoose={choose}
        />
      </aside>
      <main className="door-main" id="content">
        {children}
      </main>
    </div>
  );
}

// A cut through dentin, half of its tubules sealed.
const tubules = Array.from({ length: 5 }, (_, row) =>
  Array.from({ length: row % 2 === 0 ? 5 : 4 }, (__, column) => ({
    x: 24 + column * 38 + (row % 2) * 19,
    y: 24 + row * 38,
    radius: 11 + ((row * 3 + column * 5) % 4),
    sealed: column + row * 0.5 < 2.6,
  })),
).flat();
