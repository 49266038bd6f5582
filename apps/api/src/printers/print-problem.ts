import { Problem } from "../http/problem.ts";

/** What to check, by why nobody was reached. */
const advice: Record<string, string> = {
  refused:
    "Something is there, but takes no labels at that port. Check the port (9100 by custom), and " +
    "whether the printer is ready.",
  "no-answer":
    "Nobody answers at that address. Is the printer switched on, in this network, and is the " +
    "address still its own?",
  "unknown-name": "Nobody knows that name in this network. Enter the printer's address instead.",
  "no-way": "There is no way to that address from here. Check the network and the address.",
};

/** Why labels were not printed, or perhaps only some of them. */
export function problemOfOutcome(
  { outcome, detail }: { outcome: string; detail: string },
  { host, port }: { host: string; port: number },
): Problem {
  const address = `${host}:${port}`;
  if (outcome === "unreachable") {
    return new Problem(
      "printer-unreachable",
      `${address}: ${advice[detail] ?? advice["no-way"]} Nothing was printed.`,
      { host, port, why: detail },
    );
  }
  return new Problem(
    "print-outcome-unknown",
    `The connection to ${address} broke off while labels were sent. Look which ones came out, and ` +
      "print from the first one that is missing.",
    { host, port },
  );
}
