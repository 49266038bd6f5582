import { createHash, createHmac, randomBytes } from "node:crypto";
import type { FastifyReply, FastifyRequest } from "fastify";

/** `<practice id>.<token>`: the practice routes the look-up, the token is the secret. */
export interface TokenCookie {
  practiceId: string;
  token: string;
}

/**
 * Over https by another name: ports share their cookies, and what plain http has set must not pass
 * for one of https. A browser takes a name with this prefix over https alone (RFC 6265bis 4.1.3.2).
 */
const isSecure = ({ protocol }: FastifyRequest): boolean => protocol === "https";
const named = (request: FastifyRequest, name: string): string =>
  isSecure(request) ? `__Host-${name}` : name;

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
  const match = form.exec(request.cookies[named(request, name)] ?? "");
  return match ? { practiceId: match[1]!, token: match[2]! } : undefined;
}
export const readSessionCookie = (request: FastifyRequest) => read(request, sessionName);
export const readDeviceCookie = (request: FastifyRequest) => read(request, deviceName);

function write(reply: FastifyReply, name: string, cookie: TokenCookie & { seconds: number }): void {
  reply.setCookie(named(reply.request, name), `${cookie.practiceId}.${cookie.token}`, {
    httpOnly: true,
    sameSite: "strict",
    secure: isSecure(reply.request),
    path: "/",
    maxAge: cookie.seconds,
  });
}
export const writeSessionCookie = (reply: FastifyReply, cookie: TokenCookie, seconds: number) =>
  write(reply, sessionName, { ...cookie, seconds: seconds });
export const writeDeviceCookie = (reply: FastifyReply, cookie: TokenCookie) =>
  write(reply, deviceName, { ...cookie, seconds: yearSeconds });
export const clearSessionCookie = (reply: FastifyReply) => {
  const { request } = reply;
  reply.clearCookie(named(request, sessionName), { path: "/", secure: isSecure(request) });
};
