/** Temperatures in degrees Celsius; `null` where none is known. */
export interface TemperatureRange {
  lowestC: number | null;
  highestC: number | null;
}
/** How an entry wants a product kept; `null` where it sets no limit. */
export interface StorageLimits {
  storageMinC: number | null;
  storageMaxC: number | null;
}

/**
 * Whether a place was colder or warmer than a product is to be kept. What no limit or no reading is
 * known of is not outside. The limits themselves are within: ISO 15223-1 5.3.7, temperature limit,
 * which says to what temperatures a device can safely be exposed.
 */
export function isOutsideStorage(
  { lowestC, highestC }: TemperatureRange,
  { storageMinC, storageMaxC }: StorageLimits,
): boolean {
  const coldest = lowestC ?? highestC;
  const warmest = highestC ?? lowestC;
  return (
    (coldest !== null && storageMinC !== null && coldest < storageMinC) ||
    (warmest !== null && storageMaxC !== null && warmest > storageMaxC)
  );
}
