/** The texts about an address that is not secure, in English. Own wording. */
export const secureEn = {
  noCamera: "No camera here: this address is not secure.",
  trust: "Let this device trust Tubule",
  thenOpen: "then open",
  off: "Why Tubule has no secure one",
  gotIt: "Understood",
};
