import type { Verification } from "#contracts/overview";
import { AuditService } from "../../api/src/audit/audit.service.ts";
import { listPractices, onDatabase } from "./on-database.ts";
import { exitCodes } from "./usage.ts";

export async function verify(options: { json?: boolean }): Promise<void> {
  const found = await onDatabase(async ({ db, ownerUrl }) => {
    const audit = new AuditService(db);
    const practices = await listPractices(ownerUrl);
    return Promise.all(
      practices.map(async ({ id, name, actor }) => ({
        practice: { id, name },
        ...(await audit.verify({ actor, at: new Date() })),
      })),
    );
  });
  const ok = found.every((each) => each.ok);
  const text = found.map((each) => `${each.practice.name}\n${sayVerification(each)}`).join("\n");
  process.stdout.write(
    options.json ? `${JSON.stringify({ ok, practices: found })}\n` : `${text || "No practice"}\n`,
  );
  process.exitCode = ok ? exitCodes.fine : exitCodes.finding;
}

function sayVerification({ entries, fault, head, ledger, records }: Verification): string {
  const chain = fault
    ? `  Audit chain: BROKEN at entry ${fault.sequence}: ${fault.what}`
    : `  Audit chain: whole, ${entries} entries, head ${head ?? "none"}`;
  const books =
    ledger.differences === 0
      ? `  Ledger: all ${ledger.balances} balances are the sum of their movements`
      : `  Ledger: ${ledger.differences} of ${ledger.balances} balances or places DIFFER`;
  const signed =
    records.faults === 0
      ? `  Records: ${records.signed} signed, each as it was signed`
      : `  Records: ${records.faults} of ${records.signed} signed records are NOT as signed`;
  return [chain, books, signed].join("\n");
}
