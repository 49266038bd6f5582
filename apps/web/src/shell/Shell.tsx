import { useIsFetching, useQueryClient } from "@tanstack/react-query";
import { useEffect, useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { Unreachable } from "../api/problem.ts";
import { useClockMinutesOff } from "../api/server-clock.ts";
import { useSignedIn } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { About } from "./About.tsx";
import { Header } from "./Header.tsx";
import { NoCamera } from "./NoCamera.tsx";

/** What stands around every page: the line of pages, the notices, the caution at the foot. */
export function Shell({ children }: { children: ReactNode }): ReactNode {
  const t = useTexts();
  const [aboutIsOpen, openAbout] = useState(false);
  const [location] = useLocation();
  const { practice } = useSignedIn();
  const atChair = location.endsWith("/chairside");
  return (
    <div className={atChair ? "shell at-chair" : "shell"}>
      <a className="skip" href="#content">
        {t.shell.skip}
      </a>
      <Header />
      <Notices />
      <main id="content" tabIndex={-1}>
        {children}
      </main>
      <footer className="footer">
        <span>
          {t.shell.caution} {t.shell.toothNumbers(t.notations[practice.toothNotation])}
        </span>
        <button type="button" className="link" onClick={() => openAbout(true)}>
          {t.shell.aboutLink}
        </button>
      </footer>
      {aboutIsOpen ? <About onClose={() => openAbout(false)} /> : null}
    </div>
  );
}

function Notices(): ReactNode {
  const t = useTexts();
  const { practice } = useSignedIn();
  const minutesOff = useClockMinutesOff();
  const unreachable = useIsUnreachable();
  return (
    <aside className="notices" aria-label={t.shell.notices}>
      {practice.demonstration ? <p className="notice training">{t.shell.training}</p> : null}
      <NoCamera />
      {minutesOff === 0 ? null : <p className="notice">{t.shell.clockOff(minutesOff)}</p>}
      <div role="status">
        {unreachable ? <p className="notice offline">{t.shell.offline}</p> : null}
      </div>
    </aside>
  );
}

/** Whether the newest answer to any read on screen was none at all. */
function useIsUnreachable(): boolean {
  const queries = useQueryClient();
  const fetching = useIsFetching();
  const [unreachable, setUnreachable] = useState(false);
  useEffect(() => {
    if (fetching > 0) return;
    const active = queries.getQueryCache().findAll({ type: "active" });
    setUnreachable(active.some((query) => query.state.error instanceof Unreachable));
  }, [queries, fetching]);
  return unreachable;
}
