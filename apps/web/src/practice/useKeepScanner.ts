import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { keepDeviceProfile, type ProfileToKeep } from "../scanner/device-profile.ts";

export interface KeepScanner {
  /** The registered tablet that this device is, or `null`. */
  tabletName: string | null;
  /** Keeps a profile on this device and, on a registered tablet, with it. */
  keep: (kept: ProfileToKeep) => void;
  /** Why the tablet's copy could not be saved; this device has its own all the same. */
  error: unknown;
}

export function useKeepScanner(): KeepScanner {
  const { data } = useRead("getScannerProfile");
  const refresh = useRefresh();
  const save = useWrite("saveScannerProfile", () => refresh("getScannerProfile", "listDevices"));
  const tabletName = data?.device?.name ?? null;
  return {
    tabletName,
    keep: ({ profile, setUpAt }) => {
      keepDeviceProfile({ profile, setUpAt });
      if (tabletName !== null) save.mutate({ body: { profile, setUpAt } });
    },
    error: save.error,
  };
}
