import type { ReactNode } from "react";
import type { ProductKind } from "#domain";
import { forms, type Form } from "./vessel-form.ts";

const outlines: Readonly<Record<Form, ReactNode>> = {
  bottle: (
    <>
      <path d="M15 3 h6 l1.5 9 h-9 z" />
      <rect x="11" y="12" width="14" height="7" rx="1.5" />
      <path d="M10 22 h16 a5 5 0 0 1 5 5 v27 a5 5 0 0 1 -5 5 h-16 a5 5 0 0 1 -5 -5 v-27 a5 5 0 0 1 5 -5 z" />
    </>
  ),
  syringe: (
    <>
      <path d="M17 1 h2 v9 h-2 z" />
      <path d="M12 10 h12 v4 h2 v30 h-16 v-30 h2 z" />
      <path d="M5 44 h26 v4 h-26 z" />
      <path d="M16 48 h4 v8 h6 v4 h-16 v-4 h6 z" />
    </>
  ),
  tube: (
    <>
      <rect x="12" y="2" width="12" height="9" rx="2" />
      <path d="M10 13 h16 l4 38 h-24 z" />
      <rect x="4" y="52" width="28" height="6" rx="1.5" />
    </>
  ),
};

/** The outline of a container by what it holds; filled where one is there. */
export function Vessel({ kind, filled }: { kind: ProductKind; filled: boolean }): ReactNode {
  return (
    <svg className={filled ? "vessel filled" : "vessel"} viewBox="0 0 36 61" aria-hidden="true">
      {outlines[forms[kind]]}
    </svg>
  );
}
