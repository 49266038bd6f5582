import type { FastifyInstance, FastifyReply } from "fastify";
import { trustDe } from "#texts/trust-de";
import { trustEn } from "#texts/trust-en";
import { matrixOf } from "../drawing/symbols.ts";
import type { SecureSide } from "./secure-side.ts";
import { makeTrustPage } from "./trust-page.ts";

/** Where a device is taught to trust this server: open to everybody, over http as well. */
export const trustPath = "/trust";

const texts = { en: trustEn, de: trustDe };
type Language = keyof typeof texts;
const isLanguage = (text: unknown): text is Language => text === "en" || text === "de";

/** The language asked for in the address, else the first of ours that the browser names. */
function readLanguage(asked: unknown, accepted: string): Language {
  if (isLanguage(asked)) return asked;
  const wanted = accepted.split(",").map((each) => each.trim().slice(0, 2).toLowerCase());
  return wanted.find(isLanguage) ?? "en";
}

/** The page, and the certificate authority to download in the two usual forms. */
export function addTrust(server: FastifyInstance, side: SecureSide): void {
  server.get(trustPath, (request, reply) => {
    const { language: asked } = request.query as { language?: unknown };
    const language = readLanguage(asked, request.headers["accept-language"] ?? "");
    const agent = request.headers["user-agent"] ?? "";
    const page = makeTrustPage(texts[language], { side, language, agent });
    reply.header("Vary", "Accept-Language").header("Cache-Control", "no-store");
    return reply.type("text/html; charset=utf-8").send(page);
  });
  const offer = (reply: FastifyReply, name: string, type: string) =>
    reply.type(type).header("Content-Disposition", `attachment; filename="${name}"`);
  server.get(`${trustPath}/tubule-ca.crt`, (_request, reply) => {
    if (side.authority === undefined) return reply.callNotFound();
    return offer(reply, "tubule-ca.crt", "application/x-x509-ca-cert").send(side.authority.raw);
  });
  server.get(`${trustPath}/tubule-ca.pem`, (_request, reply) => {
    if (side.authority === undefined) return reply.callNotFound();
    const text = side.authority.toString();
    return offer(reply, "tubule-ca.pem", "application/x-pem-file").send(text);
  });
  server.get(`${trustPath}/address.svg`, async (_request, reply) => {
    const [address] = side.plainAddresses;
    if (address === undefined) return reply.callNotFound();
    const drawn = await drawQr(`${address}${trustPath}`);
    return reply.type("image/svg+xml").header("Cache-Control", "no-store").send(drawn);
  });
}

/** With the quiet zone of four modules that ISO/IEC 18004 asks for. */
async function drawQr(text: string): Promise<string> {
  const modules = await matrixOf("qrcode", text);
  const dots = modules.flatMap((row, y) =>
    row.flatMap((dark, x) => (dark ? [`M${x + 4} ${y + 4}h1v1h-1z`] : [])),
  );
  const side = modules.length + 8;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${side} ${side}">
<path fill="#fff" d="M0 0h${side}v${side}H0z"/><path d="${dots.join("")}"/></svg>
`;
}
