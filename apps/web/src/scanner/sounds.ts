/** Two sounds, told apart without looking: rising and short for taken, low and double for look. */
import { readRemembered, remember } from "../ui/remembered.ts";

export type Sound = "taken" | "look" | "time-up";

let context: AudioContext | null = null;

export const soundsAreOn = (): boolean => readRemembered("sounds") !== "off";
export function switchSounds(on: boolean): void {
  remember("sounds", on ? null : "off");
}

interface Tone {
  hertz: number;
  toHertz: number;
  atSeconds: number;
  forSeconds: number;
  shape: OscillatorType;
}

const tones: Readonly<Record<Sound, readonly Tone[]>> = {
  taken: [{ hertz: 720, toHertz: 1180, atSeconds: 0, forSeconds: 0.11, shape: "sine" }],
  look: [
    { hertz: 220, toHertz: 190, atSeconds: 0, forSeconds: 0.16, shape: "triangle" },
    { hertz: 220, toHertz: 150, atSeconds: 0.22, forSeconds: 0.24, shape: "triangle" },
  ],
  "time-up": [
    { hertz: 520, toHertz: 520, atSeconds: 0, forSeconds: 0.14, shape: "sine" },
    { hertz: 660, toHertz: 660, atSeconds: 0.18, forSeconds: 0.14, shape: "sine" },
    { hertz: 880, toHertz: 880, atSeconds: 0.36, forSeconds: 0.3, shape: "sine" },
  ],
};

/** Plays a sound, unless sounds are off or the browser plays none. */
export function playSound(sound: Sound): void {
  readySounds();
  if (!soundsAreOn() || context === null) return;
  for (const tone of tones[sound]) playTone(context, tone);
}

/** Within a tap: some browsers let a page sound later only if it was made ready in one. */
export function readySounds(): void {
  if (!soundsAreOn() || typeof AudioContext === "undefined") return;
  context ??= new AudioContext();
  void context.resume();
}

function playTone(audio: AudioContext, tone: Tone): void {
  const start = audio.currentTime + tone.atSeconds;
  const end = start + tone.forSeconds;
  const oscillator = audio.createOscillator();
  const gain = audio.createGain();
  oscillator.type = tone.shape;
  oscillator.frequency.setValueAtTime(tone.hertz, start);
  oscillator.frequency.exponentialRampToValueAtTime(tone.toHertz, end);
  gain.gain.setValueAtTime(0.0001, start);
  gain.gain.exponentialRampToValueAtTime(0.3, start + 0.015);
  gain.gain.exponentialRampToValueAtTime(0.0001, end);
  oscillator.connect(gain).connect(audio.destination);
  oscillator.start(start);
  oscillator.stop(end);
}
