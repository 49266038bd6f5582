import { useEffect, useRef, useState, type ReactNode } from "react";
import { Link, useLocation } from "wouter";
import { CameraButton } from "../camera/CameraButton.tsx";
import { OutboxStatus } from "../outbox/OutboxStatus.tsx";
import { paths } from "../paths.ts";
import { useSignedIn } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Menu } from "./Menu.tsx";
import { navStations, stationOf } from "./nav.ts";

/** The line across the top: its stations are the pages, in the order of a bottle's life. */
export function Header(): ReactNode {
  const t = useTexts();
  const session = useSignedIn();
  const [location] = useLocation();
  const [menuIsOpen, openMenu] = useState(false);
  const here = stationOf(location);
  const line = useRef<HTMLElement>(null);
  useEffect(() => {
    // On a narrow screen the line is longer than its window.
    const station = line.current?.querySelector("[aria-current]");
    station?.scrollIntoView({ block: "nearest", inline: "center" });
  }, [here]);
  return (
    <header className="header">
      <Link to={paths.today()} className="brand" aria-label={`Tubule, ${t.shell.nav.today}`}>
        <svg viewBox="0 0 32 32" aria-hidden="true">
          <circle cx="16" cy="16" r="12.5" fill="none" stroke="currentColor" strokeWidth="4" />
          <circle cx="16" cy="16" r="5.5" fill="currentColor" />
        </svg>
        <span>Tubule</span>
      </Link>
      <nav ref={line} className="line" aria-label={t.shell.pages}>
        {navStations.map(({ key, path }) => (
          <Link key={key} to={path} aria-current={key === here ? "page" : undefined}>
            {t.shell.nav[key]}
          </Link>
        ))}
      </nav>
      <OutboxStatus />
      <CameraButton />
      <button
        type="button"
        className="person"
        aria-haspopup="dialog"
        onClick={() => openMenu(true)}
      >
        <span className="person-name">{session.person.displayName}</span>
        <span className="person-place">{session.device?.name ?? session.practice.name}</span>
      </button>
      {menuIsOpen ? <Menu onClose={() => openMenu(false)} /> : null}
    </header>
  );
}
