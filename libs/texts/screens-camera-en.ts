/** The texts of scanning by camera and by photo, in English. Own wording. */
export const cameraEn = {
  button: "Camera",
  photo: "Photo of a label",
  drop: "Let go: the labels in the photo are read",
  readingPhoto: "Reading the photo …",
  nothingInPhoto:
    "No label was found in the photo. Take it from nearer, sharp and without glare, or type the code.",
  unsureInPhoto:
    "The bars in the photo were not read with certainty. Take it from nearer, or use the camera or the scanner.",
  noPicture: "This file is no picture that the browser can show. Use a JPEG or PNG.",
  crowded:
    "Halves of more than one label are in the picture. Show one pack at a time, with both its symbols.",
  readerFailed: "The decoder did not start. Load the page again; a scanner works all the same.",
  said: {
    asking: "The browser asks whether Tubule may use the camera. Allow it.",
    ready: "Hold a label into the picture.",
    read: (what: string) => `Read: ${what}`,
    notRead: "Read, but it is no label that Tubule knows",
    once: "Each label counts once. For one more of the same, take it out of the picture for three seconds.",
    wait: "Found. Hold it still.",
    resting: "The camera rests: nothing was read for three minutes.",
    other: "The camera that was chosen is not there. This is another one.",
    slow: "Reads with the slower decoder, since the fast one does not run here: hold one label at a time into the middle of the picture.",
  },
  goOn: "Go on",
  tryAgain: "Try again",
  light: "Light",
  zoom: "Zoom",
  which: "Which camera",
  number: (number: number) => `Camera ${number}`,
  faults: {
    refused: {
      title: "The camera is not allowed",
      mend: "Tap the camera or lock sign beside the address, allow the camera for this page, then try again.",
    },
    "refused-by-system": {
      title: "The device does not let the browser use the camera",
      mend: "Allow the camera for the browser in the settings of this device, under privacy, then try again.",
    },
    "put-off": {
      title: "The browser's question was not answered",
      mend: "Try again and allow the camera.",
    },
    none: {
      title: "No camera was found",
      mend: "Plug one in, or see whether it is switched off or covered by a slide. Then try again.",
    },
    busy: {
      title: "The camera is in use",
      mend: "Close the other program or page that uses it, then try again.",
    },
    "went-away": {
      title: "The camera has gone",
      mend: "Plug it in again, then try again.",
    },
    unknown: {
      title: "The camera does not start",
      mend: "Try again. If it stays so, start the browser anew.",
    },
  },
  insecure: {
    title: "No camera at this address",
    why: "Browsers give the camera only to encrypted addresses, which begin with https. This page came from a plain one.",
    go: "Open Tubule at its encrypted address:",
    meanwhile:
      "A scanner works here, and photos can be read: take one with the device, or choose, drop or paste it.",
    noBrowser: "This browser has no camera for web pages. Use a current one.",
  },
};
