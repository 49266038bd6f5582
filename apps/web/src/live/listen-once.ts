/**
 * One stream of server-sent events for all pages of a browser: it opens at most six connections to
 * a server, and the seventh page would stand still. The page that holds the lock listens and tells
 * the others. Where the browser has no locks (a plain address), a page listens while it is seen.
 */
export type LiveEvent = { kind: "changed" } | { kind: "verdicts"; trayIds: string[] };

const channelName = "tubule.live";

/** Hears what the server tells; answers what ends that. */
export function listenOnce(address: string, take: (event: LiveEvent) => void): () => void {
  const channel = new BroadcastChannel(channelName);
  channel.addEventListener("message", ({ data }: MessageEvent<LiveEvent>) => take(data));
  const give = (event: LiveEvent): void => {
    take(event);
    channel.postMessage(event);
  };
  const stop =
    "locks" in navigator ? listenWithLock(address, give) : listenWhileSeen(address, take);
  return () => {
    stop();
    channel.close();
  };
}

function openStream(address: string, take: (event: LiveEvent) => void): EventSource {
  const source = new EventSource(address);
  let isFirst = true;
  source.addEventListener("ready", () => {
    // What changed while the stream was broken off is not told afterwards.
    if (!isFirst) take({ kind: "changed" });
    isFirst = false;
  });
  source.addEventListener("changed", () => take({ kind: "changed" }));
  source.addEventListener("verdicts", ({ data }: MessageEvent<string>) => {
    const { trays } = JSON.parse(data) as { trays: { trayId: string }[] };
    take({ kind: "verdicts", trayIds: trays.map(({ trayId }) => trayId) });
  });
  return source;
}

function listenWithLock(address: string, take: (event: LiveEvent) => void): () => void {
  const stopping = new AbortController();
  const { signal } = stopping;
  const held = navigator.locks.request(channelName, { signal }, () => {
    const source = openStream(address, take);
    return new Promise<void>((resolve) => {
      signal.addEventListener("abort", () => {
        source.close();
        resolve();
      });
    });
  });
  // Given up while another page holds the lock: that is how it ends.
  held.catch(() => undefined);
  return () => stopping.abort();
}

function listenWhileSeen(address: string, take: (event: LiveEvent) => void): () => void {
  let source: EventSource | null = null;
  const follow = (): void => {
    if (document.hidden) source?.close();
    else if (source === null || source.readyState === EventSource.CLOSED) {
      source = openStream(address, take);
    }
  };
  follow();
  document.addEventListener("visibilitychange", follow);
  return () => {
    document.removeEventListener("visibilitychange", follow);
    source?.close();
  };
}
