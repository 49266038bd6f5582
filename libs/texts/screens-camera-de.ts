/** The texts of scanning by camera and by photo, in German. */
import type { cameraEn } from "./screens-camera-en.ts";

export const cameraDe: typeof cameraEn = {
  button: "Kamera",
  photo: "Foto eines Etiketts",
  drop: "Loslassen: Die Etiketten auf dem Foto werden gelesen",
  readingPhoto: "Das Foto wird gelesen …",
  nothingInPhoto:
    "Auf dem Foto wurde kein Etikett gefunden. Näher, scharf und ohne Spiegelung aufnehmen oder den Code eintippen.",
  unsureInPhoto:
    "Der Strichcode auf dem Foto wurde nicht sicher gelesen. Näher aufnehmen oder Kamera oder Scanner benutzen.",
  noPicture: "Diese Datei ist kein Bild, das der Browser zeigen kann. JPEG oder PNG nehmen.",
  crowded:
    "Im Bild sind Hälften von mehr als einem Etikett. Eine Packung nach der anderen zeigen, mit beiden Codes.",
  readerFailed: "Der Decoder ist nicht gestartet. Die Seite neu laden; ein Scanner geht trotzdem.",
  said: {
    asking: "Der Browser fragt, ob Tubule die Kamera benutzen darf. Bitte erlauben.",
    ready: "Ein Etikett ins Bild halten.",
    read: (what) => `Gelesen: ${what}`,
    notRead: "Gelesen, aber kein Etikett, das Tubule kennt",
    once: "Jedes Etikett zählt einmal. Für noch eines vom selben: drei Sekunden aus dem Bild nehmen.",
    wait: "Gefunden. Ruhig halten.",
    resting: "Die Kamera ruht: Drei Minuten lang wurde nichts gelesen.",
    other: "Die gewählte Kamera ist nicht da. Das ist eine andere.",
    slow: "Liest mit dem langsameren Decoder, weil der schnelle hier nicht läuft: ein Etikett nach dem anderen in die Mitte des Bildes halten.",
  },
  goOn: "Weiter",
  tryAgain: "Noch einmal",
  light: "Licht",
  zoom: "Zoom",
  which: "Welche Kamera",
  number: (number) => `Kamera ${number}`,
  faults: {
    refused: {
      title: "Die Kamera ist nicht erlaubt",
      mend: "Das Kamera- oder Schlosszeichen neben der Adresse antippen, die Kamera für diese Seite erlauben, dann noch einmal.",
    },
    "refused-by-system": {
      title: "Das Gerät lässt den Browser nicht an die Kamera",
      mend: "In den Einstellungen des Geräts unter Datenschutz die Kamera für den Browser erlauben, dann noch einmal.",
    },
    "put-off": {
      title: "Die Frage des Browsers blieb ohne Antwort",
      mend: "Noch einmal, und die Kamera erlauben.",
    },
    none: {
      title: "Keine Kamera gefunden",
      mend: "Eine anschließen oder nachsehen, ob sie ausgeschaltet oder von einem Schieber verdeckt ist. Dann noch einmal.",
    },
    busy: {
      title: "Die Kamera ist belegt",
      mend: "Das andere Programm oder die andere Seite schließen, dann noch einmal.",
    },
    "went-away": {
      title: "Die Kamera ist weg",
      mend: "Wieder anschließen, dann noch einmal.",
    },
    unknown: {
      title: "Die Kamera startet nicht",
      mend: "Noch einmal. Bleibt es dabei, den Browser neu starten.",
    },
  },
  insecure: {
    title: "Keine Kamera unter dieser Adresse",
    why: "Browser geben die Kamera nur für verschlüsselte Adressen frei, die mit https beginnen. Diese Seite kam von einer einfachen.",
    go: "Tubule unter der verschlüsselten Adresse öffnen:",
    meanwhile:
      "Ein Scanner geht hier, und Fotos werden gelesen: mit dem Gerät aufnehmen oder auswählen, hierher ziehen oder einfügen.",
    noBrowser: "Dieser Browser gibt Webseiten keine Kamera. Einen aktuellen nehmen.",
  },
};
