import type { ReactNode } from "react";
import { Link, useLocation } from "wouter";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";

/** The three parts of the catalogue. */
export function CatalogueParts(): ReactNode {
  const t = useTexts();
  const [location] = useLocation();
  const parts = [
    { path: paths.catalogue(), label: t.catalogue.parts.products },
    { path: paths.systems(), label: t.catalogue.parts.systems },
    { path: paths.techniques(), label: t.catalogue.parts.techniques },
  ];
  return (
    <nav className="parts" aria-label={t.catalogue.title}>
      {parts.map(({ path, label }) => (
        <Link key={path} to={path} aria-current={path === location ? "page" : undefined}>
          {label}
        </Link>
      ))}
    </nav>
  );
}
