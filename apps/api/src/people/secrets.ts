import { randomInt, timingSafeEqual } from "node:crypto";
import { hash, verify } from "@node-rs/argon2";

/** Argon2id with 19 MiB, two passes (OWASP Password Storage Cheat Sheet; ASVS 5.0 11.4.2). */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export const hashSecret = (secret: string): Promise<string> => hash(secret, cost);

let decoy: Promise<string> | undefined;

/** Takes as long for somebody unknown as for somebody known. */
export async function verifySecret(stored: string | null, secret: string): Promise<boolean> {
  decoy ??= hashSecret("nobody has this");
  const matches = await verify(stored ?? (await decoy), secret);
  return stored !== null && matches;
}

const letters = "ABCDEFGHJKMNPQRSTVWXYZ23456789";

/** The one-time code the first owner reads from the console: 12 of 30 signs, 58 bits. */
export function makeSetUpCode(): string {
  const signs = Array.from({ length: 12 }, () => letters[randomInt(letters.length)]);
  return [signs.slice(0, 4), signs.slice(4, 8), signs.slice(8)].map((g) => g.join("")).join("-");
}

export function sameCode(expected: string, given: string): boolean {
  const plain = (text: string) => text.toUpperCase().replace(/[^A-Z0-9]/g, "");
  const [a, b] = [Buffer.from(plain(expected)), Buffer.from(plain(given))];
  return a.length === b.length && timingSafeEqual(a, b);
}
