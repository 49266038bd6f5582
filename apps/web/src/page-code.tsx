import { createElement, lazy, useState, type ComponentType, type ReactNode } from "react";

interface FetchedApart<Props> {
  (props: Props): ReactNode;
  /** Fetches its code, if that is not there yet; fails where the server does not answer. */
  fetchCode: () => Promise<void>;
}

/**
 * A page whose code is a file of its own. What is there already is shown without a pause: React
 * holds back for 300 ms what comes after "loading" has once been shown.
 */
export function pageOf<Props extends object>(
  load: () => Promise<{ default: ComponentType<Props> }>,
): FetchedApart<Props> {
  let loaded: ComponentType<Props> | null = null;
  const fetchPage = async () => {
    const module = await load();
    loaded = module.default;
    return module;
  };
  const Later = lazy(fetchPage);
  function FetchedPage(props: Props): ReactNode {
    // Chosen once: as another component the page would begin anew.
    const [Shown] = useState<ComponentType<Props>>(() => loaded ?? Later);
    return createElement(Shown, props);
  }
  const fetchCode = async () => {
    await fetchPage();
  };
  return Object.assign(FetchedPage, { fetchCode });
}
