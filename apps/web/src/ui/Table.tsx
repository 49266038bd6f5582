import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "./Button.tsx";
import type { Column } from "./column.ts";
import { saveCsv } from "./csv.ts";

export type { Column };

interface TableProps<Row> {
  caption: string;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  rowKey: (row: Row) => string;
  /** The name of the CSV file, without its ending; without it nothing can be exported. */
  exportName?: string;
}

/** A plain table; on narrow screens each row becomes a small list of its own. */
export function Table<Row>({
  caption,
  columns,
  rows,
  rowKey,
  exportName,
}: TableProps<Row>): ReactNode {
  const t = useTexts();
  return (
    <div className="table-frame">
      <table className="table">
        <caption className="unseen">{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.key} scope="col" className={column.numeric ? "numeric" : undefined}>
                {column.label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={rowKey(row)}>
              {columns.map((column) => (
                <td
                  key={column.key}
                  data-label={column.label}
                  className={column.numeric ? "numeric" : undefined}
                >
                  {column.show(row)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {exportName === undefined ? null : (
        <div className="actions table-actions">
          <Button kind="quiet" onClick={() => saveCsv(exportName, columns, rows)}>
            {t.common.export}
          </Button>
          <Button kind="quiet" onClick={() => window.print()}>
            {t.common.print}
          </Button>
        </div>
      )}
    </div>
  );
}
