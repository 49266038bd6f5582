import type { ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { PhotoButton } from "./PhotoButton.tsx";

/** Why this page has no camera, the address where it has one, and photos instead. */
export function WhyNoCamera({ onClose }: { onClose: () => void }): ReactNode {
  const { insecure } = useTexts().camera;
  return (
    <Dialog title={insecure.title} onClose={onClose} actions={<PhotoButton kind="main" />}>
      {window.isSecureContext ? <p>{insecure.noBrowser}</p> : <GoSecure />}
      <p>{insecure.meanwhile}</p>
    </Dialog>
  );
}

/** The same page at the server's encrypted addresses, as far as the server tells them. */
function GoSecure(): ReactNode {
  const { camera, secure } = useTexts();
  const { insecure } = camera;
  const { data: health } = useRead("getHealth");
  const addresses = health?.secureAddresses ?? [];
  const { hostname, pathname, search } = window.location;
  const ofThisName = addresses.filter((address) => new URL(address).hostname === hostname);
  const shown = ofThisName.length > 0 ? ofThisName : addresses;
  return (
    <>
      <p>{insecure.why}</p>
      {shown.length === 0 ? null : (
        <>
          <p>{insecure.go}</p>
          <ul className="camera-addresses">
            {shown.map((address) => (
              <li key={address}>
                <a className="button plain" href={new URL(pathname + search, address).href}>
                  {address}
                </a>
              </li>
            ))}
          </ul>
        </>
      )}
      <p>
        <a className="button quiet" href={health?.trustPath ?? "/trust"}>
          {secure.trust}
        </a>
      </p>
    </>
  );
}
