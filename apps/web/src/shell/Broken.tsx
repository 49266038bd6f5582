import { Component, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { paths } from "../paths.ts";

interface BoundaryState {
  broken: boolean;
}

/** Shows a way on where a page fails, as when a new version took the place of the one loaded. */
export class Boundary extends Component<{ children: ReactNode }, BoundaryState> {
  override state: BoundaryState = { broken: false };

  static getDerivedStateFromError(): BoundaryState {
    return { broken: true };
  }

  override render(): ReactNode {
    return this.state.broken ? <BrokenPage /> : this.props.children;
  }
}

function BrokenPage(): ReactNode {
  const t = useTexts();
  return (
    <Page title={t.shell.broken}>
      <p>{t.shell.brokenHint}</p>
      <div className="actions">
        <Button kind="main" onClick={() => window.location.reload()}>
          {t.shell.loadAgain}
        </Button>
      </div>
    </Page>
  );
}

export function NotFoundPage(): ReactNode {
  const t = useTexts();
  return (
    <Page title={t.shell.notFound}>
      <p>{t.shell.notFoundHint}</p>
      <div className="actions">
        <LinkButton to={paths.today()} kind="main">
          {t.shell.toToday}
        </LinkButton>
      </div>
    </Page>
  );
}
