import { useEffect, useState } from "react";

const findTop = (): Element =>
  Array.from(document.querySelectorAll("dialog:modal")).at(-1) ?? document.body;

/**
 * An element that stands in the topmost modal dialog, and in the page where there is none: all
 * outside of such a dialog can be neither tapped nor reached by keys.
 */
export function useTopPlace(className: string, onMove: () => void): HTMLElement {
  const [host] = useState(() => Object.assign(document.createElement("div"), { className }));
  useEffect(() => {
    const place = () => {
      const top = findTop();
      if (host.parentElement === top) return;
      top.append(host);
      onMove();
    };
    place();
    // Dialogs are opened after they are drawn, and go without closing.
    const observer = new MutationObserver(place);
    const wanted = { subtree: true, childList: true, attributeFilter: ["open"] };
    observer.observe(document.body, wanted);
    return () => {
      observer.disconnect();
      host.remove();
    };
  }, [host, onMove]);
  return host;
}
