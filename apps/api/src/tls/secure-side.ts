import type { X509Certificate } from "node:crypto";
import { inAddress } from "./machine-names.ts";

/** Where the encrypted side of the server is, for whoever tells people; empty without one. */
export class SecureSide {
  private served: { port: number; places: readonly string[] } | undefined;
  /** What a tablet has to trust. */
  authority: X509Certificate | undefined;
  /** Where the plain side is, for the page that is opened before a tablet trusts anything. */
  plainAddresses: readonly string[] = [];

  opened(authority: X509Certificate, served: { port: number; places: readonly string[] }): void {
    this.authority = authority;
    this.served = served;
  }

  /** As in `https://192.168.1.5:4331`, the surest first. */
  get addresses(): string[] {
    const { port, places } = this.served ?? { port: 0, places: [] };
    return places.map((place) => `https://${inAddress(place)}:${port}`);
  }
}
