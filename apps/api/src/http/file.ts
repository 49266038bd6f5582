import type { FastifyReply } from "fastify";

/** An answer that is a file; its media type is one of those in the operation's contract. */
export interface SentFile {
  media: string;
  name: string;
  bytes: Uint8Array;
}

/** Sends a file to be looked at in the browser and kept under its name. */
export function sendFile(reply: FastifyReply, { media, name, bytes }: SentFile): Buffer {
  const charset = media.startsWith("text/") ? "; charset=utf-8" : "";
  reply.header("Content-Type", `${media}${charset}`);
  reply.header("Content-Disposition", `inline; filename="${name}"`);
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
