/** How long and how large a request may be, over http and https alike. */
export const limits = {
  bodyBytes: 1_000_000,
  requestMs: 15_000,
  connectionMs: 60_000,
  keepAliveMs: 65_000,
};

/** The same, as node's own servers take them. */
export const serverLimits = {
  headersTimeout: 10_000,
  connectionsCheckingInterval: 5_000,
  maxHeaderSize: 16_384,
};
