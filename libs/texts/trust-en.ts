/**
 * The texts of the page that makes a device trust this server, in English. Own wording; the names
 * of menus are those of the systems, from memory.
 */
export const trustEn = {
  title: "Let this device trust Tubule",
  lead:
    "Once trusted, this device reaches Tubule over an encrypted address, and the browser lets it use " +
    "the camera and keep the screen on. A scanner works without it.",
  otherLanguage: "Deutsch",
  steps: {
    download: "Download",
    compare: "Compare",
    install: "Install",
    open: "Open",
  },
  download: "This file names the certificate authority that was made on the office PC.",
  asCrt: "Download tubule-ca.crt",
  asPem: "The same as tubule-ca.pem",
  compare:
    "This must be the fingerprint that stands where Tubule was started. If it is another one, " +
    "install nothing: somebody is between this device and the office PC.",
  fingerprint: "SHA-256 fingerprint",
  install: "Open what this device is. Menus differ a little from version to version.",
  systems: [
    {
      key: "ios",
      name: "iPad, iPhone",
      steps: [
        "Download the .crt file in Safari and allow the profile.",
        "Settings, General, VPN & Device Management: choose the downloaded profile and install it.",
        "Settings, General, About, Certificate Trust Settings: switch on full trust for Tubule.",
      ],
      undo: "Settings, General, VPN & Device Management: remove the profile.",
    },
    {
      key: "android",
      name: "Android",
      steps: [
        "Download the .crt file.",
        "Settings, Security and privacy, More security settings, Encryption and credentials, " +
          "Install a certificate, CA certificate. It is quickest to search the settings for " +
          "“CA certificate”.",
        "Choose “Install anyway” and the downloaded file.",
      ],
      undo: "The same place, Trusted credentials, User: switch it off or remove it.",
    },
    {
      key: "windows",
      name: "Windows",
      steps: [
        "Download the .crt file and open it. Choose “Install Certificate”.",
        "Choose the current user, or the local machine for everybody on this PC.",
        "Choose “Place all certificates in the following store”, Browse, Trusted Root " +
          "Certification Authorities. Finish, and confirm the fingerprint.",
        "Close all windows of the browser and open it again.",
      ],
      undo: "Run certmgr.msc (certlm.msc for everybody): Trusted Root Certification Authorities.",
    },
    {
      key: "mac",
      name: "Mac",
      steps: [
        "Download the .crt file and open it: Keychain Access asks where to; choose login.",
        "In Keychain Access open the certificate by a double click, then Trust.",
        "When using this certificate: Always Trust. Close the window and enter your password.",
      ],
      undo: "In Keychain Access delete the certificate.",
    },
    {
      key: "linux",
      name: "Linux, Chromebook",
      steps: [
        "Download the .pem file.",
        "In Chromium or Chrome: Settings, Privacy and security, Security, Manage certificates.",
        "Import the file among the authorities or custom certificates, and trust it for websites.",
      ],
      undo: "The same place: delete it.",
    },
    {
      key: "firefox",
      name: "Firefox, on any computer",
      steps: [
        "Download the .pem file.",
        "Settings, Privacy & Security, Certificates, View Certificates, Authorities, Import.",
        "Tick “Trust this CA to identify websites”.",
      ],
      undo: "The same place: choose it, Delete or Distrust.",
    },
  ],
  undo: "To take the trust away again:",
  open: "Then open one of these, and keep it as a bookmark or on the home screen:",
  openHint:
    "A browser that still warns does not trust the file yet. Sign-in, tablet and choices of the " +
    "plain address are not taken along.",
  meansTitle: "What this means",
  means: [
    "Whoever has the key of this certificate authority can pass for an address of your network " +
      "towards this device. The key was made on the office PC and stays there, in the data folder.",
    "It can vouch for local names and private addresses only, never for a site of the Internet:",
    "Install it on devices of the practice alone, and take it away before you give one of them on.",
  ],
  from: "From another device",
  fromHint: "Scan this with the tablet's camera app, or type it there:",
  picture: "QR code of the address",
  off: "Tubule was started without an encrypted address. Where it was started, the console says why.",
};

/** The shape that every language's texts of this page have. */
export type TrustTexts = typeof trustEn;
