/** Light and zoom of a camera, where it has them (Media Capture: Image Capture specification). */

interface Range {
  min: number;
  max: number;
  step: number;
}

/** What TypeScript's own types lack. */
interface Capabilities {
  torch?: boolean;
  zoom?: Range;
  focusMode?: readonly string[];
}
interface Settings {
  zoom?: number;
}

export interface Controls {
  hasLight: boolean;
  zoom: (Range & { value: number }) | null;
}

const videoTrackOf = (stream: MediaStream): MediaStreamTrack | undefined =>
  stream.getVideoTracks()[0];

const capabilitiesOf = (track: MediaStreamTrack | undefined): Capabilities =>
  // Some browsers lack the question itself.
  (track?.getCapabilities?.() ?? {}) as Capabilities;

export function readControls(stream: MediaStream): Controls {
  const track = videoTrackOf(stream);
  const { torch, zoom } = capabilitiesOf(track);
  const value = (track?.getSettings() as Settings | undefined)?.zoom ?? zoom?.min ?? 1;
  return {
    hasLight: torch === true,
    zoom: zoom === undefined || zoom.max <= zoom.min ? null : { ...zoom, value },
  };
}

async function apply(stream: MediaStream, wish: Record<string, unknown>): Promise<boolean> {
  try {
    await videoTrackOf(stream)?.applyConstraints({ advanced: [wish] });
    return true;
  } catch {
    return false;
  }
}

/** Answers whether the camera did so. */
export const switchLight = (stream: MediaStream, on: boolean): Promise<boolean> =>
  apply(stream, { torch: on });

export const setZoom = (stream: MediaStream, zoom: number): Promise<boolean> =>
  apply(stream, { zoom });

/** A label is held near, now here and now there: a camera that can shall keep looking for it. */
export async function keepFocusing(stream: MediaStream): Promise<void> {
  const { focusMode } = capabilitiesOf(videoTrackOf(stream));
  if (focusMode?.includes("continuous")) await apply(stream, { focusMode: "continuous" });
}

export function stopStream(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

/** Which camera it is, and whether it looks at the person before it. */
export function aboutCamera(stream: MediaStream): { id: string | null; isFront: boolean } {
  const settings = videoTrackOf(stream)?.getSettings();
  return { id: settings?.deviceId ?? null, isFront: settings?.facingMode === "user" };
}
