import { createHash, createHmac, randomBytes } from "node:crypto";
import type { FastifyReply, FastifyRequest } from "fastify";

/** `<practice id>.<token>`: the practice routes the look-up, the token is the secret. */
export interface TokenCookie {
  practiceId: string;
  token: string;
}

const sessionName = "tubule_session";
const deviceName = "tubule_device";
const form = /^([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})\.([\w-]{43})$/;
const yearSeconds = 365 * 86_400;

export const newToken = (): string => randomBytes(32).toString("base64url");
export const tokenHash = (token: string): Buffer => createHash("sha256").update(token).digest();

/** A tablet's token follows from the session that registers it: a lost answer is given again. */
export const deviceToken = (sessionToken: string, deviceId: string): string =>
  createHmac("sha256", sessionToken).update(`device ${deviceId}`).digest("base64url");

function read(request: FastifyRequest, name: string): TokenCookie | undefined {
  const match = form.exec(request.cookies[name] ?? "");
  return match ? { practiceId: match[1]!, token: match[2]! } : undefined;
}
export const readSessionCookie = (request: FastifyRequest) => read(request, sessionName);
export const readDeviceCookie = (request: FastifyRequest) => read(request, deviceName);

function write(reply: FastifyReply, name: string, cookie: TokenCookie & { seconds: number }): void {
  reply.setCookie(name, `${cookie.practiceId}.${cookie.token}`, {
    httpOnly: true,
    sameSite: "strict",
    secure: reply.request.protocol === "https",
    path: "/",
    maxAge: cookie.seconds,
  });
}
export const writeSessionCookie = (reply: FastifyReply, cookie: TokenCookie, seconds: number) =>
  write(reply, sessionName, { ...cookie, seconds: seconds });
export const writeDeviceCookie = (reply: FastifyReply, cookie: TokenCookie) =>
  write(reply, deviceName, { ...cookie, seconds: yearSeconds });
export const clearSessionCookie = (reply: FastifyReply) => {
  reply.clearCookie(sessionName, { path: "/" });
};
