/** What the tests of the checks ask of a checked tray. */
import { checkedAt } from "../facts.fixture.ts";
import type { Finding, FindingCode, TrayFacts } from "../facts.ts";
import { checkTray } from "./check-tray.ts";

/** The codes found, in the order found. */
export function listCodes(facts: TrayFacts, at: string = checkedAt): readonly FindingCode[] {
  return checkTray(facts, at).findings.map((finding) => finding.code);
}

/** The one finding of a code; none or several fail the test. */
export function getFinding(facts: TrayFacts, code: FindingCode, at: string = checkedAt): Finding {
  const found = checkTray(facts, at).findings.filter((finding) => finding.code === code);
  const [only] = found;
  if (only === undefined || found.length > 1) {
    throw new Error(`${found.length} findings of ${code}, one expected`);
  }
  return only;
}

/** How often a code was found. */
export function countFindings(facts: TrayFacts, code: FindingCode, at: string = checkedAt): number {
  return listCodes(facts, at).filter((found) => found === code).length;
}
