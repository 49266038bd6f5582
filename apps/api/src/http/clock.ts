/** The one clock of the server, so that a test can set it. Everything else is told the time. */
export interface Clock {
  now(): Date;
}
export const Clock = Symbol("Clock");
export const systemClock: Clock = { now: () => new Date() };
