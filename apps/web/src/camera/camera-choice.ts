/** Which camera is asked for, and what its being refused means. Pure. */

/** Why there is no picture. */
export type CameraFault =
  | "refused"
  | "refused-by-system"
  | "put-off"
  | "none"
  | "busy"
  | "went-away"
  | "unknown";

/** The names are those of the Media Capture and Streams specification, section 10.2. */
const faults: Readonly<Record<string, CameraFault>> = {
  NotAllowedError: "refused",
  SecurityError: "refused",
  NotFoundError: "none",
  OverconstrainedError: "none",
  NotReadableError: "busy",
  AbortError: "busy",
};

/** What went wrong when a camera was asked for, from what the browser threw. */
export function readFault(error: unknown): CameraFault {
  const { name = "", message = "" } = Object(error) as { name?: string; message?: string };
  // Chromium tells by its message alone who refused; from memory.
  if (name === "NotAllowedError" && /system/i.test(message)) return "refused-by-system";
  if (name === "NotAllowedError" && /dismiss/i.test(message)) return "put-off";
  return faults[name] ?? "unknown";
}

/** Small symbols need many pixels; a camera that has fewer gives what it has. */
const size = { width: { ideal: 1920 }, height: { ideal: 1080 } };

/** What to ask the browser for, in this order, until one is given. */
export function listWishes(chosenId: string | null): MediaStreamConstraints[] {
  const usual = { audio: false, video: { ...size, facingMode: { ideal: "environment" } } };
  if (chosenId === null) return [usual];
  return [{ audio: false, video: { ...size, deviceId: { exact: chosenId } } }, usual];
}

/** Whether the next wish is worth trying: the one camera is gone, taken or broken. */
export function mayTryNext(error: unknown): boolean {
  const fault = readFault(error);
  return fault === "none" || fault === "busy" || fault === "unknown";
}

export interface CameraName {
  id: string;
  name: string;
}

/** The cameras to choose from; one without a name gets a number by `nameOf`. */
export function listCameras(
  devices: readonly Pick<MediaDeviceInfo, "kind" | "deviceId" | "label">[],
  nameOf: (number: number) => string,
): CameraName[] {
  return devices
    .filter(({ kind, deviceId }) => kind === "videoinput" && deviceId !== "")
    .map(({ deviceId, label }, index) => ({
      id: deviceId,
      // Chromium adds the maker's and model's numbers in brackets: nobody knows them.
      name: label.replace(/ \([\da-f]{4}:[\da-f]{4}\)$/i, "") || nameOf(index + 1),
    }));
}

interface Size {
  width: number;
  height: number;
}

/**
 * The part of a picture that a window of another shape shows when the picture covers it (CSS
 * `object-fit: cover`), in whole pixels of the picture; `null` while either has no size.
 */
export function visiblePart(picture: Size, stage: Size): (Size & { x: number; y: number }) | null {
  if (picture.width * picture.height * stage.width * stage.height === 0) return null;
  const scale = Math.max(stage.width / picture.width, stage.height / picture.height);
  const width = Math.min(picture.width, Math.round(stage.width / scale));
  const height = Math.min(picture.height, Math.round(stage.height / scale));
  const x = Math.floor((picture.width - width) / 2);
  return { x, y: Math.floor((picture.height - height) / 2), width, height };
}
