import type { findingsEn } from "./findings-en.ts";

/** What the checks find and what to do, in German. */
export const findingsDe: typeof findingsEn = {
  findings: {
    "past-use-by": {
      title: "Abgelaufen",
      sentence: "{name}: verwendbar bis {useBy|date}, heute ist der {today|date}.",
    },
    "past-in-use-life": {
      title: "Zu lange offen",
      sentence:
        "{name}: geöffnet am {openedOn|date}, verwendbar bis {usableThrough|date}, heute ist der " +
        "{today|date}.",
    },
    "ends-before-appointment": {
      title: "Endet vor dem Termin",
      sentence: {
        "use-by": "{name}: verwendbar bis {end|date}, der Termin ist am {appointment|date}.",
        "in-use-life":
          "{name}: nach dem Öffnen verwendbar bis {end|date}, der Termin ist am " +
          "{appointment|date}.",
      },
    },
    "short-dated": {
      title: "Endet bald",
      sentence: "{name}: noch {daysLeft|days}, bis {end|date}; die Praxis verlangt {limit|days}.",
    },
    withdrawn: {
      title: "Zurückgerufen",
      sentence: "{name}, Charge {lot}: betroffen vom Rückruf {references}.",
    },
    "in-quarantine": {
      title: "In Quarantäne",
      sentence: "{name} ist gesperrt. Ort: {place}.",
    },
    "not-available": {
      title: "Nicht verfügbar",
      sentence: {
        empty: "{name} ist als leer gebucht.",
        discarded: "{name} ist als entsorgt gebucht.",
        returned: "{name} ist als an den Lieferanten zurückgesandt gebucht.",
        lost: "{name} ist als verloren gebucht.",
        "other-tray": "{name} steht auf einem anderen Tray: {tray}.",
        "not-received": "{name}: Dieser Behälter ist hier nie eingegangen.",
      },
    },
    "label-conflict": {
      title: "Etikett passt nicht",
      sentence: {
        "use-by":
          "{name}: Das Etikett sagt verwendbar bis {scanned|date}, erfasst ist {stored|date}.",
        "use-by-not-stored":
          "{name}: Das Etikett sagt verwendbar bis {scanned|date}, erfasst ist kein Datum.",
        lot: "{name}: Das Etikett sagt Charge {scanned}, erfasst ist Charge {stored}.",
        serial: "{name}: Das Etikett sagt Seriennummer {scanned}, erfasst ist {stored}.",
      },
    },
    "wrong-kind": {
      title: "Falsches Produkt",
      sentence: {
        step: "{name} ({kind|kind}) steht bei „{step}“. Dorthin gehört: {accepts|kinds}.",
        "no-material": "{name} ({kind|kind}) steht bei „{step}“. Dorthin gehört kein Material.",
        "no-step": "{name} ({kind|kind}) hat keinen Platz in „{technique}“.",
      },
    },
    missing: {
      title: "Fehlt",
      sentence: "Für „{name}“ fehlt der Behälter. Dorthin gehört: {accepts|kinds}.",
    },
    "unknown-product": {
      title: "Unbekanntes Produkt",
      sentence: {
        identifier: "{identifier} steht in keinem Eintrag des Katalogs.",
        "no-identifier": "Das Etikett nennt kein Produkt: {name}.",
      },
    },
    unconfirmed: {
      title: "Nicht bestätigt",
      sentence:
        "{product}: Den Eintrag hat noch keine Zahnärztin und kein Zahnarzt mit der " +
        "Gebrauchsanweisung verglichen.",
    },
    "wrong-solvent": {
      title: "Falsches Lösungsmittel",
      sentence: {
        "not-stated": "{name}: Das Lösungsmittel ist nicht angegeben, und „{step}“ hängt davon ab.",
        "not-allowed":
          "{name} enthält {solvent|solvent}; „{step}“ erlaubt nur: {allowed|solvents}.",
        needed: "{name} enthält {solvents|solvents}; „{step}“ braucht {solvent|solvent}.",
      },
    },
    "drying-too-short": {
      title: "Trocknung zu kurz",
      sentence: {
        ifu:
          "{name}: {plannedSeconds|seconds} geplant, die Gebrauchsanweisung verlangt " +
          "{neededSeconds|seconds}.",
        solvent:
          "{name}: {plannedSeconds|seconds} geplant, {neededSeconds|seconds} nötig für " +
          "{solvent|solvent} (Vorgabe der Praxis).",
        "not-stated":
          "{name}: {plannedSeconds|seconds} geplant, {neededSeconds|seconds} nötig; das " +
          "Lösungsmittel ist nicht angegeben und gilt als {solvent|solvent}.",
      },
    },
    "application-too-short": {
      title: "Einwirkzeit zu kurz",
      sentence:
        "{name}: {plannedSeconds|seconds} geplant, die Gebrauchsanweisung verlangt " +
        "{neededSeconds|seconds}.",
    },
    "single-use-reused": {
      title: "Schon benutzt",
      sentence:
        "{name} ist für eine einzige Behandlung bestimmt und wurde am {usedOn|date} bei " +
        "jemand anderem verwendet.",
    },
    "system-split": {
      title: "Systeme gemischt",
      sentence: {
        differ: "{name} gehört zu {system}, {other} zu {otherSystem}.",
        "other-without": "{name} gehört zu {system}, für {other} ist kein System angegeben.",
        "part-without": "{other} gehört zu {otherSystem}, für {name} ist kein System angegeben.",
      },
    },
    "strategy-conflict": {
      title: "Ätzung passt nicht",
      sentence: {
        etched: "{name} ist selbstätzend, aber „{step}“ ätzt das Dentin.",
        "not-etched":
          "{name} verlangt Ätzen und Abspülen, aber in „{technique}“ wird nicht geätzt.",
      },
    },
    eugenol: {
      title: "Eugenol und Befestigen",
      sentence: {
        planned:
          "{name} enthält Eugenol; Reste auf der Oberfläche können die spätere Haftung schwächen.",
        used:
          "Zahn {tooth}: {cement} enthält Eugenol und liegt seit dem {sealedOn|date} auf der " +
          "Versiegelung.",
        free:
          "Zahn {tooth}: {cement} liegt seit dem {sealedOn|date} auf der Versiegelung; auch ohne " +
          "Eugenol muss die Oberfläche vorbehandelt werden.",
      },
    },
    allergy: {
      title: "Allergie",
      sentence: "{name} enthält, was auf der Allergieliste steht: {contents|contents}.",
    },
    "ends-before-bonding": {
      title: "Endet vor dem Befestigen",
      sentence: {
        "use-by": "{name}: verwendbar bis {end|date}, befestigt wird am {bonding|date}.",
        "in-use-life":
          "{name}: nach dem Öffnen verwendbar bis {end|date}, befestigt wird am {bonding|date}.",
      },
    },
    "serial-twice": {
      title: "Seriennummer doppelt",
      sentence: "{name}: Die Seriennummer {serial} ist schon bei {other} erfasst.",
    },
    "exposure-too-low": {
      title: "Zu wenig Licht",
      sentence: {
        measured:
          "{name}: {seconds|seconds} mit {light} geben {givenJ} J/cm², nötig sind {neededJ} " +
          "J/cm² ({irradiance} mW/cm², gemessen bei {distanceMm} mm).",
        between:
          "{name}: {seconds|seconds} mit {light} geben {givenJ} J/cm², nötig sind {neededJ} " +
          "J/cm² ({irradiance} mW/cm², zwischen zwei Messungen, bei {distanceMm} mm).",
        estimate:
          "{name}: {seconds|seconds} mit {light} geben etwa {givenJ} J/cm², nötig sind {neededJ} " +
          "J/cm² (Schätzung: {irradiance} mW/cm², bei {distanceMm} mm nicht gemessen).",
      },
    },
    "exposure-extreme": {
      title: "Extremes Licht",
      sentence: {
        output: "{name} gibt {output} mW/cm²; die Praxis lässt höchstens {ceiling} mW/cm² zu.",
        short:
          "„{name}“ härtet {seconds|seconds}; unter {limit|seconds} hält eine Härtung vielleicht " +
          "nicht.",
      },
    },
    "light-check-overdue": {
      title: "Licht nicht gemessen",
      sentence: {
        never: "{name} wurde an der Spitze noch nie gemessen.",
        overdue:
          "{name} wurde zuletzt am {readOn|date} gemessen, vor {days|days}; die Praxis verlangt " +
          "es alle {limit|days}.",
        weak:
          "{name} gibt {output} mW/cm² an der Spitze; die Praxis verlangt mindestens {floor} " +
          "mW/cm².",
      },
    },
    "thickness-range": {
      title: "Schicht außerhalb",
      sentence: {
        thin: "{name}: {measuredMm} mm gemessen, mindestens {minMm} mm verlangt.",
        thick: "{name}: {measuredMm} mm gemessen, höchstens {maxMm} mm verlangt.",
      },
    },
    "modulus-or-filler-low": {
      title: "Schicht zu schwach",
      sentence: {
        filler: "{name} hat {held} % Füllstoff, die Technik verlangt {needed} %.",
        "filler-not-stated":
          "{name}: Der Füllstoff ist nicht angegeben, die Technik verlangt {needed} %.",
        modulus: "{name} hat einen E-Modul von {held} GPa, die Technik verlangt {needed} GPa.",
        "modulus-not-stated":
          "{name}: Der E-Modul ist nicht angegeben, die Technik verlangt {needed} GPa.",
      },
    },
    "storage-excursion": {
      title: "Falsch gelagert",
      sentence: {
        day: "{name} stand in {place}, als es dort am {from|date} zu warm oder zu kalt war.",
        days:
          "{name} stand in {place}, als es dort vom {from|date} bis {to|date} zu warm oder zu " +
          "kalt war.",
      },
    },
    cold: {
      title: "Noch kalt",
      sentence: "{name} braucht {minutes|minutes} außerhalb des Kühlschranks, noch {minutesLeft}.",
    },
    "drop-aging": {
      title: "Tropfen zu alt",
      sentence:
        "{name}: Der Tropfen ist {ageSeconds|seconds} alt, die Gebrauchsanweisung erlaubt " +
        "{lifeSeconds|seconds}.",
    },
    "seal-benefit": {
      title: "Kein Vorteil belegt",
      sentence: {
        "etch-and-rinse":
          "{name} ätzt, primt und klebt in zwei Schritten; zusammengefasste Studien fanden mit " +
          "solchen Systemen keinen Vorteil der sofortigen Versiegelung.",
        "self-etch":
          "{name} ist selbstätzend in einem Schritt; zusammengefasste Studien fanden mit solchen " +
          "Systemen keinen Vorteil der sofortigen Versiegelung.",
      },
    },
    "blocking-agent": {
      title: "Nicht getrennt",
      sentence: {
        "no-glycerin": "{name} ({kind|kind}) steht bei „{step}“. Dort gehört Glyzeringel hin.",
        "no-separator":
          "Zahn {tooth} bekommt ein Provisorium aus Kunststoff, und auf dem Tray ist kein " +
          "Isoliermittel.",
      },
    },
    "low-after-this": {
      title: "Geht zur Neige",
      sentence:
        "{product}: nach diesem Termin noch {left} Anwendungen; bestellt wird unter {reorderUses}.",
    },
    "earlier-exists": {
      title: "Anderen zuerst aufbrauchen",
      sentence: {
        earlier: "{insteadCode} endet am {insteadEnd|date}, {name} am {end|date}.",
        "earlier-than-none": "{insteadCode} endet am {insteadEnd|date}, {name} hat kein Enddatum.",
        open: "{insteadCode} ist schon offen, {name} noch verschlossen.",
      },
    },
  },

  remedies: {
    "take-instead": "Nehmen Sie {insteadCode} ({insteadProduct}). Ort: {insteadPlace}.",
    "get-another": "Besorgen Sie einen anderen Behälter; im Regal steht kein passender.",
    discard: "Entsorgen Sie den Behälter.",
    quarantine: "Nicht verwenden! Stellen Sie den Behälter in Quarantäne.",
    "scan-missing": "Scannen Sie einen Behälter für diesen Schritt.",
    "register-product":
      "Nehmen Sie das Produkt in den Katalog auf oder den Behälter vom Tray herunter.",
    "receive-first": "Buchen Sie den Behälter zuerst ein oder nehmen Sie ihn vom Tray herunter.",
    "check-label":
      "Vergleichen Sie das gedruckte Etikett mit dem Erfassten. Berichtigen Sie, was falsch ist.",
    "remove-from-tray": "Nehmen Sie den Behälter vom Tray herunter.",
    "confirm-product": "Lassen Sie {product} zahnärztlich mit der Gebrauchsanweisung vergleichen.",
    "dry-longer": "Trocknen Sie bei „{step}“ mindestens {neededSeconds|seconds} mit Luft.",
    "apply-longer": "Lassen Sie es bei „{step}“ mindestens {neededSeconds|seconds} einwirken.",
    "pair-from-one-system": "Verwenden Sie beide Teile aus einem System.",
    "change-technique": "Wählen Sie eine Technik, die zum Produkt passt.",
    "use-soon": "Brauchen Sie den Behälter bald auf.",
    "cure-longer": "Härten Sie bei „{step}“ mindestens {enoughSeconds|seconds}.",
    "change-light": "Nehmen Sie eine andere Lampe, oder lassen Sie {light} prüfen.",
    "measure-light": "Messen Sie {light} mit dem Radiometer und tragen Sie den Wert ein.",
    "look-at-coat": "Sehen Sie sich die Schicht noch einmal an und vermerken Sie, was getan wurde.",
    "settle-excursion":
      "Lassen Sie zahnärztlich entscheiden, was die Abweichung bedeutet (Ort: {place}), oder nehmen " +
      "Sie etwas, das anderswo stand.",
    "let-warm": "Lassen Sie es noch {minutesLeft|minutes} draußen stehen.",
    "fresh-drop": "Entnehmen Sie einen frischen Tropfen.",
    "add-separator":
      "Scannen Sie ein Isoliermittel, oder wählen Sie eine Technik mit diesem Schritt.",
    "clean-surface":
      "Reinigen Sie Zahn {tooth} vor dem Befestigen und behandeln Sie die Oberfläche vor.",
    reorder: "Bestellen Sie {product}.",
    none: "Nichts zu tun.",
  },

  because: {
    "use-by": "verwendbar bis {value|date}",
    today: "heute {value|date}",
    "opened-on": "geöffnet am {value|date}",
    "in-use-life-days": "Verwendbarkeit nach dem Öffnen: {value|days}",
    "in-use-life-months": "Verwendbarkeit nach dem Öffnen: {value|months}",
    "usable-through": "verwendbar bis {value|date}",
    appointment: "Termin {value|date}",
    "days-left": "noch {value|days}",
    "short-dated-days": "mindestens {value|days} verlangt",
    withdrawal: "Rückruf {value}",
    place: "Ort {value}",
    state: "Zustand: {value|absence}",
    "other-tray": "anderes Tray {value}",
    lot: "Charge {value}",
    serial: "Seriennummer {value}",
    kind: "Art: {value|kind}",
    technique: "Technik {value}",
    "accepted-kinds": "dorthin gehört: {value|kinds}",
    identifier: "Kennung {value}",
    entry: "Eintrag {value} nicht bestätigt",
    solvents: "enthält {value|solvents}",
    "allowed-solvents": "erlaubt: {value|solvents}",
    "needed-solvent": "braucht {value|solvent}",
    "planned-air-dry": "Lufttrocknung geplant {value|seconds}",
    "needed-air-dry": "Lufttrocknung nötig {value|seconds}",
    "planned-application": "Einwirkzeit geplant {value|seconds}",
    "needed-application": "Einwirkzeit nötig {value|seconds}",
    "used-for-other": "am {value|date} bei jemand anderem verwendet",
    "slowest-solvent": "langsamstes Lösungsmittel {value|solvent}",
    system: "System {value}",
    strategy: "Strategie: {value|strategy}",
    content: "enthält {value|content}",
    contents: "enthält {value|contents}",
    allergies: "Allergieliste: {value|contents}",
    "etch-step": "Dentin wird bei „{value}“ geätzt",
    "bonding-visit": "befestigt wird am {value|date}",
    "other-container": "erfasst bei {value}",
    "planned-cure": "Härtung geplant {value|seconds}",
    irradiance: "{value} mW/cm²",
    "light-distance": "bei {value} mm",
    "needed-exposure": "{value} J/cm² nötig",
    "light-ceiling": "höchstens {value} mW/cm²",
    "light-floor": "mindestens {value} mW/cm²",
    "light-read": "gemessen am {value|date}",
    "light-days": "alle {value|days}",
    "measured-thickness": "{value} mm gemessen",
    thinnest: "mindestens {value} mm",
    thickest: "höchstens {value} mm",
    filler: "Füllstoff {value} %",
    "filler-needed": "mindestens {value} % Füllstoff",
    modulus: "E-Modul {value} GPa",
    "modulus-needed": "mindestens {value} GPa",
    excursion: "Abweichung am {value|date}",
    "warm-up": "erwärmt sich {value|minutes}",
    "drop-age": "Tropfen {value|seconds} alt",
    "drop-life": "Tropfen hält {value|seconds}",
    "resin-provisional": "Provisorium aus Kunststoff, Zahn {value}",
    "provisional-cement": "provisorischer Zement {value}",
    "uses-left": "noch {value} Anwendungen",
    "reorder-uses": "bestellen unter {value} Anwendungen",
    "other-end": "der andere endet am {value|date}",
    "this-end": "dieser endet am {value|date}",
  },
  sources: {
    ifu: "Gebrauchsanweisung",
    technique: "Technik",
    practice: "Praxis",
    label: "Etikett",
    stock: "Bestand",
    reading: "Uhr",
    withdrawal: "Rückruf",
    patient: "Patientenakte",
    light: "Radiometer",
    record: "Akte",
  },
};
