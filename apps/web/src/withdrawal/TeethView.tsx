import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Table } from "../ui/Table.tsx";
import { CertaintyMark } from "./CertaintyMark.tsx";
import { certainties, listAffected, type TracedLot } from "./sums.ts";
import { useToothColumns } from "./useToothColumns.tsx";

/** Which teeth of which charts have a lot, and how sure that is. */
export function TeethView({ lot }: { lot: TracedLot }): ReactNode {
  const { teeth: t, certainty, certaintyWhy } = useTexts().withdrawal;
  const columns = useToothColumns(false);
  const affected = listAffected([lot]);
  const found = certainties.filter((one) => affected.some((tooth) => tooth.certainty === one));
  return (
    <div className="lot-teeth">
      <h3>{t.title}</h3>
      {affected.length === 0 ? (
        <p>{t.none}</p>
      ) : (
        <>
          <Table
            caption={t.title}
            columns={columns}
            rows={affected}
            rowKey={(tooth) =>
              `${tooth.recordId} ${tooth.stepKey} ${tooth.usedAt} ${tooth.containerCode ?? ""}`
            }
          />
          <ul className="certainty-key">
            {found.map((one) => (
              <li key={one}>
                <CertaintyMark certainty={one} />
                {certainty[one]}: {certaintyWhy[one]}
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
