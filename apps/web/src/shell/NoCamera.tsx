import { useState, type ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { readRemembered, remember } from "../ui/remembered.ts";

const dismissed = "no-camera-understood";

/**
 * Why this device has no camera here, and where it has one. A browser takes localhost for secure,
 * so the PC that runs Tubule is not told; nor is who has understood it.
 */
export function NoCamera(): ReactNode {
  const [isShown, show] = useState(
    () => !window.isSecureContext && readRemembered(dismissed) === null,
  );
  if (!isShown) return null;
  return (
    <NoCameraNotice
      onUnderstood={() => {
        remember(dismissed, "yes");
        show(false);
      }}
    />
  );
}

function NoCameraNotice({ onUnderstood }: { onUnderstood: () => void }): ReactNode {
  const { secure: t } = useTexts();
  const { data } = useRead("getHealth", {}, { staleMs: 60_000 });
  if (data === undefined) return null;
  const { secureAddresses, trustPath } = data;
  // The same name as now, if it is a secure one as well: this device is known to find it.
  const isHere = (address: string) => new URL(address).hostname === location.hostname;
  const address = secureAddresses.find(isHere) ?? secureAddresses[0];
  return (
    <div className="notice no-camera">
      <p>
        {t.noCamera}{" "}
        {address === undefined ? (
          <a href={trustPath}>{t.off}</a>
        ) : (
          <>
            <a href={trustPath}>{t.trust}</a>, {t.thenOpen} <a href={address}>{address}</a>
          </>
        )}
      </p>
      <button type="button" className="link" onClick={onUnderstood}>
        {t.gotIt}
      </button>
    </div>
  );
}
