import type { ProblemCode } from "#contracts/problem-codes";

/** The problems in German. */
export const problemsDe: Readonly<Record<ProblemCode, string>> = {
  "invalid-request": "Die Angaben sind unvollständig oder fehlerhaft. Prüfen Sie die Eingaben.",
  "label-unreadable":
    "Das Etikett ließ sich nicht lesen. Scannen Sie es noch einmal oder tippen Sie es ein.",
  "label-incomplete":
    "Das Etikett sagt nicht genug. Scannen Sie auch den anderen Strichcode darauf.",
  "idempotency-key-missing":
    "Das Programm hat eine Anfrage ohne ihren Schlüssel gesendet. Laden Sie die Seite neu und " +
    "versuchen Sie es noch einmal.",
  "idempotency-key-reused":
    "Derselbe Schlüssel kam mit einer anderen Anfrage. Laden Sie die Seite neu und geben Sie es " +
    "noch einmal ein.",
  "request-in-progress": "Dieselbe Anfrage wird noch bearbeitet. Warten Sie einen Augenblick.",
  "not-signed-in":
    "Hier ist niemand angemeldet. Melden Sie sich an und versuchen Sie es noch einmal.",
  "wrong-credentials":
    "Name und Passwort oder PIN passen nicht zusammen. Versuchen Sie es noch einmal.",
  "locked-out":
    "Zu viele Fehlversuche. Warten Sie[ {retryAfterSeconds|seconds}] und versuchen Sie es dann " +
    "noch einmal, oder fragen Sie die Inhaberin oder den Inhaber.",
  "not-allowed": "Ihre Rolle darf das nicht. Fragen Sie jemanden, dessen Rolle es darf[: {roles}].",
  "foreign-origin":
    "Die Anfrage kam von einer anderen Website und wurde abgelehnt. Öffnen Sie Tubule unter " +
    "seiner eigenen Adresse.",
  "demo-on-loopback-only":
    "Die Vorführung öffnet sich nur auf dem Rechner, auf dem sie läuft. Öffnen Sie sie dort.",
  "not-found": "Unter diesem Namen gibt es hier nichts. Gehen Sie zurück und suchen Sie danach.",
  "unknown-identifier":
    "Dieses Produkt steht nicht im Katalog. Nehmen Sie es anhand des Etiketts auf und scannen " +
    "Sie noch einmal.",
  "already-set-up": "Diese Installation ist schon eingerichtet. Melden Sie sich an.",
  "wrong-set-up-code":
    "Der Einrichtungscode stimmt nicht. Lesen Sie ihn an dem Rechner ab, auf dem Tubule läuft.",
  "expired-delivery":
    "Diese Charge ist abgelaufen[, verwendbar bis {useBy|date}]. Buchen Sie sie nicht ein; " +
    "senden Sie sie dem Lieferanten zurück.",
  "withdrawn-delivery":
    "Diese Charge ist zurückgerufen[ ({reference})]. Buchen Sie sie nicht ein; sondern Sie sie " +
    "aus und sagen Sie dem Büro Bescheid.",
  "use-by-conflict":
    "Diese Charge ist schon mit einem anderen Datum erfasst[: {stored|date}]. Vergleichen Sie " +
    "die gedruckten Etiketten.",
  "pack-conflict":
    "Die Etiketten dieser Packung widersprechen sich. Nicht einräumen; vergleichen Sie, was " +
    "auf ihnen gedruckt ist.",
  "serial-taken":
    "Diese Seriennummer gehört schon zu einem anderen Behälter. Vergleichen Sie beide Etiketten.",
  "not-enough-stock":
    "An diesem Ort ist nicht genug Bestand[; vorhanden: {available}]. Zählen Sie nach oder " +
    "nehmen Sie von einem anderen Ort.",
  "container-not-there":
    "Gebucht ist dieser Behälter an einem anderen Ort[: {place}]. Sehen Sie dort nach oder " +
    "buchen Sie ihn zuerst um.",
  "already-opened":
    "Dieser Behälter ist schon offen[, seit {openedOn|date}]. Es ist nichts zu tun.",
  "movement-already-reversed": "Diese Bewegung ist schon storniert. Es ist nichts zu tun.",
  "movement-not-reversible":
    "Diese Bewegung lässt sich nicht stornieren, weil Späteres darauf aufbaut. Stornieren Sie " +
    "das zuerst.",
  "name-taken": "Dieser Name ist vergeben. Wählen Sie einen anderen.",
  "identifier-taken":
    "Diese Produktkennung gehört zu einem anderen Produkt[: {product}]. Prüfen Sie Etikett und " +
    "Eintrag.",
  "product-changed":
    "Jemand hat diesen Eintrag inzwischen geändert. Laden Sie ihn neu und ändern Sie ihn noch " +
    "einmal.",
  "technique-is-starter":
    "Das ist eine übliche Vorgabe. Kopieren Sie sie, und machen Sie die Kopie zu Ihrer eigenen.",
  "already-on-tray": "Dieser Behälter steht schon auf dem Tray. Es ist nichts zu tun.",
  "list-unreadable":
    "Die Liste lässt sich nicht lesen. Berichtigen Sie sie, oder tippen Sie die Zeilen.",
  "tray-not-open":
    "Dieses Tray lässt sich nicht mehr ändern. Tauschen Sie den Behälter am Stuhl, oder " +
    "planen Sie ein neues Tray.",
  "verdict-stops":
    "Die Prüfung sagt Stopp. Beseitigen Sie die Ursache, oder lassen Sie den Stopp " +
    "zahnärztlich mit Begründung übergehen.",
  "not-overridable":
    "Das lässt sich nicht übergehen: Es ist kein Stopp mehr, oder niemand darf ihn " +
    "übergehen. Laden Sie das Tray neu und sehen Sie noch einmal hin.",
  "already-overridden": "Dieser Stopp ist schon zahnärztlich übergangen. Es ist nichts zu tun.",
  "record-not-complete":
    "Die Dokumentation ist nicht vollständig oder noch nicht unterschrieben[; es fehlt: " +
    "{missing}]. Ergänzen und unterschreiben Sie es zuerst.",
  "step-required":
    "Der Schritt gehört zur Technik und kann nicht entfallen. Führen Sie ihn aus, oder vermerken " +
    "Sie, warum nicht.",
  "record-not-signed":
    "Die Dokumentation ist noch ein Entwurf. Unterschreiben Sie sie erst; dann geht ein Nachtrag.",
  "record-superseded":
    "An die Stelle dieser Dokumentation ist eine neuere Fassung getreten. Öffnen Sie diese.",
  "record-signed":
    "Die Dokumentation ist unterschrieben und nicht mehr zu ändern. Schreiben Sie einen Nachtrag.",
  "seal-not-chosen":
    "Es ist nicht klar, auf welche Versiegelung befestigt wird. Wählen Sie sie je Zahn, oder sagen " +
    "Sie, dass es keine gibt.",
  "waiting-unchanged": "Die Liste der wartenden Zähne sagt das schon. Laden Sie sie neu.",
  "not-on-tray": "Dieser Behälter steht nicht auf dem Tray. Scannen Sie ihn zuerst auf das Tray.",
  "nothing-covered":
    "Die Mitteilung nennt nichts, was sich verfolgen lässt. Geben Sie ein Produkt, eine Charge " +
    "oder eine Seriennummer an.",
  "withdrawal-closed": "Der Rückruf ist abgeschlossen. Eröffnen Sie für alles Weitere einen neuen.",
  "excursion-settled":
    "Diese Abweichung ist schon geklärt; was dazu gesagt wurde, bleibt. Erfassen Sie eine neue.",
  "nothing-to-print":
    "Von dort an gibt es kein Etikett mehr. Wählen Sie ein früheres Etikett des Drucklaufs.",
  "label-too-small":
    "Das Etikett ist zu klein für seinen Code oder seine Charge. Wählen Sie eine andere Größe " +
    "oder einen anderen Bogen.",
  "sheet-impossible":
    "Etiketten mit diesen Maßen überlappen, ragen über die Seite oder beginnen dahinter. Messen " +
    "Sie den Bogen noch einmal.",
  "printer-unreachable":
    "Der Drucker[ unter {host}] ist nicht zu erreichen; gedruckt wurde nichts. Prüfen Sie, ob er " +
    "eingeschaltet, in diesem Netz und unter dieser Adresse ist.",
  "print-outcome-unknown":
    "Die Verbindung zum Drucker ist abgebrochen. Sehen Sie nach, welche Etiketten da sind, und " +
    "drucken Sie ab dem ersten, das fehlt.",
  "payload-too-large":
    "Das ist zu viel auf einmal. Senden Sie eine kleinere Datei oder weniger Zeilen.",
  "unsupported-media-type":
    "Diese Art von Datei wird hier nicht angenommen. Wählen Sie eine andere.",
  "too-many-requests":
    "Zu viele Anfragen auf einmal. Warten Sie[ {retryAfterSeconds|seconds}] und versuchen Sie " +
    "es dann noch einmal.",
  "database-unavailable":
    "Die Datenbank antwortet nicht. Nichts wurde gespeichert; warten Sie einen Augenblick und " +
    "versuchen Sie es noch einmal.",
  "internal-error":
    "Bei uns ist etwas schiefgegangen. Nichts wurde gespeichert; versuchen Sie es noch einmal" +
    "[ und nennen Sie diese Nummer: {requestId}].",
};
