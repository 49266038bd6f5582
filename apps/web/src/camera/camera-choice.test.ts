import { describe, expect, test } from "@jest/globals";
import { cameraEn } from "#texts/screens-camera-en";
import { listCameras, listWishes, mayTryNext, readFault, visiblePart } from "./camera-choice.ts";

describe("why there is no picture", () => {
  // Names: W3C, Media Capture and Streams, getUserMedia; the messages are Chromium's, from memory.
  const cases: [string, string, string][] = [
    ["NotAllowedError", "Permission denied", "refused"],
    ["NotAllowedError", "Permission denied by system", "refused-by-system"],
    ["NotAllowedError", "Permission dismissed", "put-off"],
    ["SecurityError", "", "refused"],
    ["NotFoundError", "Requested device not found", "none"],
    ["NotReadableError", "Could not start video source", "busy"],
    ["AbortError", "", "busy"],
    ["OverconstrainedError", "", "none"],
    ["TypeError", "", "unknown"],
  ];
  test.each(cases)("%s “%s” is %s", (name, message, fault) => {
    expect(readFault(new DOMException(message, name))).toBe(fault);
    expect(Object.keys(cameraEn.faults)).toContain(fault);
  });
  test("is not known of what is no error", () => expect(readFault("no")).toBe("unknown"));
});

describe("the camera asked for", () => {
  test("is one that looks away from the person, as sharp as it can", () => {
    const [usual, ...others] = listWishes(null);
    expect(others).toEqual([]);
    expect(usual?.video).toEqual({
      width: { ideal: 1920 },
      height: { ideal: 1080 },
      facingMode: { ideal: "environment" },
    });
  });
  test("is first the one chosen on this device, then any other", () => {
    const [chosen, ...others] = listWishes("camera-2");
    expect(chosen?.video).toMatchObject({ deviceId: { exact: "camera-2" } });
    expect(others).toEqual(listWishes(null));
  });
  test("is another one when it is gone or in use, and none when the person refuses", () => {
    const named = (name: string) => new DOMException("", name);
    expect(mayTryNext(named("OverconstrainedError"))).toBe(true);
    expect(mayTryNext(named("NotReadableError"))).toBe(true);
    expect(mayTryNext(named("NotAllowedError"))).toBe(false);
  });
});

test("cameras are listed by name, one without a name by its number", () => {
  const nameOf = (number: number) => `Camera ${number}`;
  const device = (kind: MediaDeviceKind, deviceId: string, label: string) => ({
    kind,
    deviceId,
    label,
  });
  const devices = [
    device("audioinput", "m", "Microphone"),
    device("videoinput", "a", "Back camera (1234:abCD)"),
    device("videoinput", "b", ""),
    // Before anything is allowed, browsers tell neither.
    device("videoinput", "", ""),
  ];
  expect(listCameras(devices, nameOf)).toEqual([
    { id: "a", name: "Back camera" },
    { id: "b", name: "Camera 2" },
  ]);
});

describe("the part of the picture that is seen", () => {
  test("is all of it where the shapes are the same", () => {
    const part = visiblePart({ width: 1920, height: 1080 }, { width: 320, height: 180 });
    expect(part).toEqual({ x: 0, y: 0, width: 1920, height: 1080 });
  });
  test("is its middle in a narrower window, and in a lower one", () => {
    const narrow = visiblePart({ width: 1920, height: 1080 }, { width: 400, height: 300 });
    expect(narrow).toEqual({ x: 240, y: 0, width: 1440, height: 1080 });
    const low = visiblePart({ width: 1080, height: 1920 }, { width: 390, height: 300 });
    expect(low).toEqual({ x: 0, y: 544, width: 1080, height: 831 });
  });
  test("is nothing before there is a picture", () => {
    expect(visiblePart({ width: 0, height: 0 }, { width: 400, height: 300 })).toBeNull();
  });
});
