import { useState, type ReactNode } from "react";
import { addressOf } from "../api/client.ts";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Ask } from "../ui/Dialog.tsx";
import { QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";
import { DeskActs } from "./DeskActs.tsx";
import { unitOfPage } from "./lengths.ts";
import { SheetDialog } from "./SheetDialog.tsx";
import { useShowSize } from "./useShowSize.ts";
import type { Sheet } from "./useSheetChoice.ts";

type Draft = Parameters<typeof SheetDialog>[0]["from"];

/** The sheets of labels for office printers: those that Tubule knows, and the practice's own. */
export function SheetsPanel(): ReactNode {
  const { sheets: t } = useTexts().labels;
  const isDesk = useHasRole("office", "owner");
  const query = useRead("listSheets");
  const [draft, open] = useState<Draft | null>(null);
  const [removing, remove] = useState<Sheet | null>(null);
  const first = query.data?.sheets[0];
  return (
    <section className="panel">
      <div className="panel-head">
        <div>
          <h2>{t.title}</h2>
          <p className="hint">{t.lead}</p>
        </div>
        {isDesk && first !== undefined ? (
          <Button onClick={() => open({ ...first, id: null, name: "" })}>{t.add}</Button>
        ) : null}
      </div>
      <QueryView query={query}>
        {({ sheets }) => (
          <SheetTable
            sheets={sheets}
            acts={isDesk ? (sheet) => <SheetActs {...{ sheet, open, remove }} /> : null}
          />
        )}
      </QueryView>
      {draft === null ? null : <SheetDialog from={draft} onClose={() => open(null)} />}
      {removing === null ? null : <RemoveSheet sheet={removing} onClose={() => remove(null)} />}
    </section>
  );
}

interface SheetTableProps {
  sheets: readonly Sheet[];
  acts: ((sheet: Sheet) => ReactNode) | null;
}

function SheetTable({ sheets, acts }: SheetTableProps): ReactNode {
  const { sheets: t } = useTexts().labels;
  const showSize = useShowSize();
  return (
    <Table
      caption={t.title}
      rows={sheets}
      rowKey={({ id }) => id}
      columns={[
        {
          key: "name",
          label: t.columns.name,
          show: ({ name, builtIn }) => (
            <span>
              <strong>{name}</strong> {builtIn ? <span className="soft">· {t.builtIn}</span> : null}
            </span>
          ),
        },
        {
          key: "places",
          label: t.columns.places,
          show: ({ columns, rows }) => `${columns} × ${rows}`,
        },
        {
          key: "size",
          label: t.columns.size,
          show: (sheet) =>
            showSize(sheet.labelWidthUm, sheet.labelHeightUm, unitOfPage(sheet.pageWidthUm)),
        },
        {
          key: "act",
          label: t.columns.act,
          show: (sheet) => (
            <span className="row-acts">
              <a
                className="button plain"
                href={addressOf("getSheetTest", { query: { sheet: sheet.id } })}
                target="_blank"
                rel="noreferrer"
                aria-label={t.testOf(sheet.name)}
              >
                {t.test}
              </a>
              {acts?.(sheet)}
            </span>
          ),
        },
      ]}
    />
  );
}

interface SheetActsProps {
  sheet: Sheet;
  open: (draft: Draft) => void;
  remove: (sheet: Sheet) => void;
}

/** A sheet that comes with Tubule is copied; the practice's own are corrected and removed. */
function SheetActs({ sheet, open, remove }: SheetActsProps): ReactNode {
  const { sheets: t } = useTexts().labels;
  const { name, builtIn } = sheet;
  if (!builtIn) {
    const acts = { onChange: () => open(sheet), onRemove: () => remove(sheet) };
    return <DeskActs of="sheets" name={name} {...acts} />;
  }
  const copy = { ...sheet, id: null, name: t.copied(name).slice(0, 100) };
  return (
    <Button aria-label={t.copyOf(name)} onClick={() => open(copy)}>
      {t.copy}
    </Button>
  );
}

function RemoveSheet({ sheet, onClose }: { sheet: Sheet; onClose: () => void }): ReactNode {
  const { common, labels } = useTexts();
  const { sheets: t } = labels;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const remove = useWrite("removeSheet", () => {
    refresh("listSheets");
    announce({ text: t.removed(sheet.name) });
    onClose();
  });
  return (
    <Ask
      title={t.removeTitle(sheet.name)}
      text={t.removeText}
      yes={common.remove}
      busy={remove.isPending}
      onNo={onClose}
      onYes={() => remove.mutate({ params: { sheetId: sheet.id } })}
    />
  );
}
