/**
 * Writes that must not be lost: kept first, then sent one after another, with the same key each
 * time. What the server refuses is set aside for a person; nothing is ever dropped here.
 */
import type { AnswerOf } from "#contracts/operations";
import type { RouteName } from "#contracts/routes";
import { send as sendRequest } from "../api/client.ts";
import { ApiProblem, Unreachable } from "../api/problem.ts";
import { makeUuid } from "../api/uuid.ts";
import type { NewEntry, OutboxEntry } from "./entry.ts";
import type { OutboxStore } from "./store.ts";

export interface Sender {
  personId: string;
  practiceId: string;
}

export interface OutboxParts {
  store: OutboxStore;
  send?: typeof sendRequest;
  nowMs?: () => number;
}

/** `settle` tells whoever waits, once the list shows it; without it the write is sent later. */
type Outcome = { settle: () => void } | "later";
interface Waiting {
  entry: OutboxEntry;
  onAnswer: (answer: unknown) => void;
  resolve: (answer: unknown) => void;
  reject: (problem: unknown) => void;
}

// Answers that say nothing about the write itself: it is sent again.
const passing = new Set([
  "request-in-progress",
  "not-signed-in",
  "too-many-requests",
  "database-unavailable",
]);
// A fault of the server may be a passing one; three times it is not.
const triesOfFaults = 3;

export class Outbox {
  private readonly holder = makeUuid();
  private readonly waiting = new Map<string, Waiting>();
  private readonly listeners = new Set<() => void>();
  private readonly ownListeners = new Set<() => void>();
  private readonly send: typeof sendRequest;
  private readonly nowMs: () => number;
  private entries: readonly OutboxEntry[] = [];
  private flushing: Promise<boolean> | null = null;
  private wanted = false;

  constructor(private readonly parts: OutboxParts) {
    this.send = parts.send ?? sendRequest;
    this.nowMs = parts.nowMs ?? Date.now;
  }

  get lasting(): boolean {
    return this.parts.store.lasting;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly snapshot = (): readonly OutboxEntry[] => this.entries;

  /** Hears of changes made here, but not of those that another tab has made. */
  readonly onOwnChange = (listener: () => void): (() => void) => {
    this.ownListeners.add(listener);
    return () => this.ownListeners.delete(listener);
  };

  /** Reads again what is kept, after a start or a change by another tab. */
  async reload(): Promise<void> {
    this.entries = await this.parts.store.list();
    this.askForAnswersElsewhere();
    for (const listener of this.listeners) listener();
  }

  // Another tab has sent what this page waits for: the same key gets the same answer once more.
  private askForAnswersElsewhere(): void {
    const kept = new Set(this.entries.map((entry) => entry.key));
    for (const [key, { entry, onAnswer, resolve, reject }] of this.waiting) {
      if (kept.has(key)) continue;
      this.waiting.delete(key);
      const asked = this.send(entry.route, { params: entry.params, body: entry.body, key });
      asked.then(onAnswer).then(() => resolve(asked), reject);
    }
  }

  private async reloadAfterChange(): Promise<void> {
    await this.reload();
    for (const listener of this.ownListeners) listener();
  }

  /**
   * Keeps a write, then lets it be sent. The answer comes when the server has confirmed it, which
   * may be much later; a refusal rejects with the problem and stays in the list to settle.
   * `onAnswer` hears it in the very moment in which the entry leaves the list: whoever shows both
   * what waits and what is confirmed never shows neither.
   */
  async add<N extends RouteName>(
    entry: NewEntry & { route: N },
    sender: Sender,
    onAnswer: (answer: AnswerOf<N>) => void = () => {},
  ): Promise<AnswerOf<N>> {
    const nowMs = this.nowMs();
    const whole: OutboxEntry = {
      ...entry,
      key: makeUuid(nowMs),
      at: new Date(nowMs).toISOString(),
      tries: 0,
      refused: null,
    };
    await this.parts.store.put(whole);
    const answer = new Promise<unknown>((resolve, reject) => {
      const tell = onAnswer as (answer: unknown) => void;
      this.waiting.set(whole.key, { entry: whole, onAnswer: tell, resolve, reject });
    });
    await this.reloadAfterChange();
    void this.flush(sender);
    return (await answer) as AnswerOf<N>;
  }

  /** Sends what waits in the sender's name, in order. True when nothing of it is left waiting. */
  flush(sender: Sender): Promise<boolean> {
    this.wanted = true;
    this.flushing ??= this.flushWhileWanted(sender);
    return this.flushing;
  }

  /** Lets other tabs send: nothing waits here, or this page goes away. */
  release(): Promise<void> {
    return this.parts.store.release(this.holder);
  }

  /** Puts a refused entry back in the queue, under its old key. */
  async sendAgain(key: string, sender: Sender): Promise<void> {
    const entry = this.entries.find((one) => one.key === key);
    if (entry === undefined) return;
    await this.parts.store.put({ ...entry, refused: null, tries: 0 });
    await this.reloadAfterChange();
    await this.flush(sender);
  }

  /** Lets a refused entry go, once a person has settled it otherwise. */
  async letGo(key: string): Promise<void> {
    await this.parts.store.remove(key);
    await this.reloadAfterChange();
  }

  private async flushWhileWanted(sender: Sender): Promise<boolean> {
    let empty = true;
    while (this.wanted && empty) {
      this.wanted = false;
      empty = await this.sendAll(sender);
    }
    this.flushing = null;
    return empty;
  }

  private async sendAll(sender: Sender): Promise<boolean> {
    await this.reload();
    for (;;) {
      const next = this.entries.find((entry) => isFor(entry, sender));
      if (next === undefined) {
        await this.release();
        return true;
      }
      if (!(await this.parts.store.claim(this.holder, this.nowMs()))) return false;
      const outcome = await this.sendOne(next);
      await this.reloadAfterChange();
      if (outcome === "later") {
        await this.release();
        return false;
      }
      outcome.settle();
    }
  }

  private async sendOne(entry: OutboxEntry): Promise<Outcome> {
    const { key, route, params, body, tries } = entry;
    try {
      const answer = await this.send(route, { params, body, key });
      const waiting = this.takeWaiting(key);
      this.entries = this.entries.filter((one) => one.key !== key);
      // Apart, so that a fault in showing the answer is not taken for one of the server.
      void Promise.resolve(answer).then(waiting?.onAnswer);
      await this.parts.store.remove(key);
      return { settle: () => waiting?.resolve(answer) };
    } catch (error) {
      if (error instanceof Unreachable) return "later";
      const problem =
        error instanceof ApiProblem ? error : new ApiProblem({ detail: String(error) }, 0);
      const fault = problem.status >= 500 && tries + 1 < triesOfFaults;
      if (passing.has(problem.code) || fault) {
        await this.parts.store.put({ ...entry, tries: fault ? tries + 1 : tries });
        return "later";
      }
      const { code, detail, instance } = problem;
      await this.parts.store.put({ ...entry, refused: { code, detail, instance } });
      const waiting = this.takeWaiting(key);
      return { settle: () => waiting?.reject(problem) };
    }
  }

  private takeWaiting(key: string): Waiting | undefined {
    const waiting = this.waiting.get(key);
    this.waiting.delete(key);
    return waiting;
  }
}

function isFor(entry: OutboxEntry, sender: Sender): boolean {
  const own = entry.personId === sender.personId && entry.practiceId === sender.practiceId;
  return own && entry.refused === null;
}
