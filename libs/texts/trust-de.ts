import type { TrustTexts } from "./trust-en.ts";

/**
 * The texts of the page that makes a device trust this server, in German. Own wording; the names of
 * menus are those of the systems, from memory.
 */
export const trustDe: TrustTexts = {
  title: "Dieses Gerät soll Tubule vertrauen",
  lead:
    "Danach erreicht dieses Gerät Tubule unter einer verschlüsselten Adresse, und der Browser lässt " +
    "die Kamera zu und den Bildschirm an. Ein Scanner geht auch ohne.",
  otherLanguage: "English",
  steps: {
    download: "Laden",
    compare: "Vergleichen",
    install: "Einrichten",
    open: "Öffnen",
  },
  download: "Diese Datei nennt die Zertifizierungsstelle, die auf dem Praxis-PC angelegt wurde.",
  asCrt: "tubule-ca.crt laden",
  asPem: "Dasselbe als tubule-ca.pem",
  compare:
    "Dies muss der Fingerabdruck sein, der dort steht, wo Tubule gestartet wurde. Ist es ein " +
    "anderer, dann nichts einrichten: Jemand sitzt zwischen diesem Gerät und dem Praxis-PC.",
  fingerprint: "SHA-256-Fingerabdruck",
  install: "Öffnen Sie, was dieses Gerät ist. Menüs heißen je nach Version etwas anders.",
  systems: [
    {
      key: "ios",
      name: "iPad, iPhone",
      steps: [
        "Die .crt-Datei in Safari laden und das Profil zulassen.",
        "Einstellungen, Allgemein, VPN und Geräteverwaltung: das geladene Profil wählen und " +
          "installieren.",
        "Einstellungen, Allgemein, Info, Zertifikatsvertrauenseinstellungen: volles Vertrauen für " +
          "Tubule einschalten.",
      ],
      undo: "Einstellungen, Allgemein, VPN und Geräteverwaltung: das Profil entfernen.",
    },
    {
      key: "android",
      name: "Android",
      steps: [
        "Die .crt-Datei laden.",
        "Einstellungen, Sicherheit und Datenschutz, Weitere Sicherheitseinstellungen, " +
          "Verschlüsselung und Anmeldedaten, Zertifikat installieren, CA-Zertifikat. Am schnellsten " +
          "in den Einstellungen nach „CA-Zertifikat“ suchen.",
        "„Trotzdem installieren“ und die geladene Datei wählen.",
      ],
      undo: "Ebendort, Vertrauenswürdige Anmeldedaten, Nutzer: ausschalten oder entfernen.",
    },
    {
      key: "windows",
      name: "Windows",
      steps: [
        "Die .crt-Datei laden und öffnen. „Zertifikat installieren“ wählen.",
        "Den aktuellen Benutzer wählen, oder den lokalen Computer für alle an diesem PC.",
        "„Alle Zertifikate in folgendem Speicher speichern“, Durchsuchen, Vertrauenswürdige " +
          "Stammzertifizierungsstellen. Fertigstellen und den Fingerabdruck bestätigen.",
        "Alle Fenster des Browsers schließen und ihn neu öffnen.",
      ],
      undo:
        "certmgr.msc ausführen (für alle certlm.msc): Vertrauenswürdige " +
        "Stammzertifizierungsstellen.",
    },
    {
      key: "mac",
      name: "Mac",
      steps: [
        "Die .crt-Datei laden und öffnen: Die Schlüsselbundverwaltung fragt, wohin; Anmeldung wählen.",
        "In der Schlüsselbundverwaltung das Zertifikat doppelklicken, dann Vertrauen.",
        "Bei Verwendung dieses Zertifikats: Immer vertrauen. Fenster schließen, Passwort eingeben.",
      ],
      undo: "In der Schlüsselbundverwaltung das Zertifikat löschen.",
    },
    {
      key: "linux",
      name: "Linux, Chromebook",
      steps: [
        "Die .pem-Datei laden.",
        "In Chromium oder Chrome: Einstellungen, Datenschutz und Sicherheit, Sicherheit, " +
          "Zertifikate verwalten.",
        "Die Datei bei den Zertifizierungsstellen oder eigenen Zertifikaten importieren und ihr für " +
          "Websites vertrauen.",
      ],
      undo: "Ebendort löschen.",
    },
    {
      key: "firefox",
      name: "Firefox, auf jedem Rechner",
      steps: [
        "Die .pem-Datei laden.",
        "Einstellungen, Datenschutz & Sicherheit, Zertifikate, Zertifikate anzeigen, " +
          "Zertifizierungsstellen, Importieren.",
        "„Dieser CA vertrauen, um Websites zu identifizieren“ ankreuzen.",
      ],
      undo: "Ebendort wählen, Löschen oder Vertrauen entziehen.",
    },
  ],
  undo: "Das Vertrauen wieder entziehen:",
  open: "Danach eine dieser Adressen öffnen und als Lesezeichen oder am Startbildschirm behalten:",
  openHint:
    "Ein Browser, der noch warnt, vertraut der Datei noch nicht. Anmeldung, Tablet und " +
    "Einstellungen der einfachen Adresse kommen nicht mit.",
  meansTitle: "Was das bedeutet",
  means: [
    "Wer den Schlüssel dieser Zertifizierungsstelle hat, kann sich gegenüber diesem Gerät als eine " +
      "Adresse Ihres Netzes ausgeben. Der Schlüssel wurde auf dem Praxis-PC angelegt und bleibt " +
      "dort, im Datenordner.",
    "Sie kann nur für lokale Namen und private Adressen bürgen, nie für eine Seite im Internet:",
    "Richten Sie sie nur auf Geräten der Praxis ein, und entfernen Sie sie, bevor Sie eines davon " +
      "weitergeben.",
  ],
  from: "Von einem anderen Gerät",
  fromHint: "Dies mit der Kamera-App des Tablets scannen oder dort eintippen:",
  picture: "QR-Code der Adresse",
  off: "Tubule wurde ohne verschlüsselte Adresse gestartet. Wo es gestartet wurde, steht, warum.",
};
