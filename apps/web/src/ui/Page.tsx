import { useEffect, useRef, type ReactNode } from "react";

interface PageProps {
  title: string;
  /** What stands in the browser's tab, where the title alone does not say it. */
  tabTitle?: string;
  lead?: ReactNode;
  actions?: ReactNode;
  /** Fills the screen to its foot instead of scrolling as a whole. */
  full?: boolean;
  className?: string;
  children: ReactNode;
}

/** A page: its title in the tab and as heading, which takes the focus when the page is new. */
export function Page({
  title,
  tabTitle,
  lead,
  actions,
  full = false,
  className = "",
  children,
}: PageProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${tabTitle ?? title} · Tubule`;
  }, [tabTitle, title]);
  useEffect(() => {
    const { activeElement } = document;
    // A page that has put the focus somewhere itself knows better.
    if (activeElement === null || activeElement === document.body) heading.current?.focus();
  }, []);
  return (
    <div className={`page ${full ? "full" : ""} ${className}`}>
      <div className="page-head">
        <div>
          <h1 ref={heading} tabIndex={-1}>
            {title}
          </h1>
          {lead ? <div className="lead">{lead}</div> : null}
        </div>
        {actions ? <div className="actions">{actions}</div> : null}
      </div>
      {children}
    </div>
  );
}
