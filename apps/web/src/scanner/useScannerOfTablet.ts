import { useEffect } from "react";
import { useRead } from "../api/queries.ts";
import { useSignedIn } from "../session/session.ts";
import { keepDeviceProfile, useDeviceProfile } from "./device-profile.ts";

/** On a registered tablet whose browser has forgotten its scanner: fetches what is known of it. */
export function useScannerOfTablet(): void {
  const { device } = useSignedIn();
  const { isKept } = useDeviceProfile();
  const { data } = useRead("getScannerProfile", {}, { enabled: device !== null && !isKept });
  useEffect(() => {
    if (isKept || !data?.profile) return;
    keepDeviceProfile({ profile: data.profile, setUpAt: data.setUpAt });
  }, [isKept, data]);
}
