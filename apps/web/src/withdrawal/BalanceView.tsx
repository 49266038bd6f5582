import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { makeBalanceBars, type Balance } from "./sums.ts";

/** The books of a lot as bars that run down to zero, with every number beside its bar. */
export function BalanceView({ balance }: { balance: Balance }): ReactNode {
  const { balance: t } = useTexts().withdrawal;
  const { bars, zero } = makeBalanceBars(balance);
  return (
    <div className="balance">
      <h3>{t.title}</h3>
      <table>
        <caption className="unseen">{t.title}</caption>
        <tbody style={{ "--zero": zero }}>
          {bars.map(({ key, count, from, size }) => {
            const sign = key === "received" ? "" : key === "unaccounted" ? "= " : "− ";
            return (
              <tr key={key} className={`${key} ${count === 0 ? "none" : ""}`}>
                <th scope="row">{t[key]}</th>
                <td className="numeric">
                  {sign}
                  {count}
                </td>
                <td className="balance-track" aria-hidden="true">
                  <span style={{ "--from": from, "--size": size }} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <BalanceWords balance={balance} />
    </div>
  );
}

function BalanceWords({ balance }: { balance: Balance }): ReactNode {
  const { balance: t } = useTexts().withdrawal;
  const { unaccounted, balanced, lost, countDifference } = balance;
  const words = unaccounted < 0 ? t.tooMany(-unaccounted) : t.missing(unaccounted);
  return (
    <div className={balanced ? "balance-words clear" : "balance-words stop"}>
      <VerdictShape verdict={balanced ? "clear" : "stop"} />
      <p>
        {balanced ? t.balanced : words} {lost === 0 ? null : t.lost(lost)}{" "}
        {countDifference === 0 ? null : t.counted(countDifference)}
      </p>
    </div>
  );
}
