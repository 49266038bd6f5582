import type { ReactNode } from "react";

/** One column of a table, on the screen and in its CSV. */
export interface Column<Row> {
  key: string;
  label: string;
  show: (row: Row) => ReactNode;
  /** The bare value for the CSV; without it the column is for the screen only. */
  value?: (row: Row) => string | number | null;
  numeric?: boolean;
}
