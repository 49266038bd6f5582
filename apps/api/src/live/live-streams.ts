import { PassThrough, type Readable } from "node:stream";

/**
 * A page that listens is told of life at least so often: proxies and sockets drop what is silent.
 */
const heartbeatMs = 20_000;
/** Then it has to ask again, and show that its session still holds. */
const longestMs = 10 * 60_000;
const mostOfPractice = 200;

/** Streams of server-sent events (WHATWG HTML, 9.2), by practice. */
export class LiveStreams {
  private readonly open = new Map<string, Set<PassThrough>>();

  /** A stream that begins with one event; beyond the limit the oldest gives way. */
  add(practiceId: string): Readable {
    const stream = new PassThrough();
    const streams = this.open.get(practiceId) ?? new Set();
    this.open.set(practiceId, streams);
    if (streams.size >= mostOfPractice) [...streams][0]?.end();
    streams.add(stream);
    const heartbeat = setInterval(() => stream.write(": \n\n"), heartbeatMs);
    const end = setTimeout(() => stream.end(), longestMs);
    stream.on("close", () => {
      clearInterval(heartbeat);
      clearTimeout(end);
      streams.delete(stream);
    });
    stream.write(`retry: 2000\n${sayEvent("ready", {})}`);
    return stream;
  }

  tell(practiceId: string, event: string, data: object): void {
    const text = sayEvent(event, data);
    for (const stream of this.open.get(practiceId) ?? []) stream.write(text);
  }

  close(): void {
    for (const streams of this.open.values()) for (const stream of streams) stream.destroy();
    this.open.clear();
  }
}

export const sayEvent = (event: string, data: object): string =>
  `event: ${event}\ndata: ${JSON.stringify(data)}\n\n`;
