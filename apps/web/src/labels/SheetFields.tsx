import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Choice, TextField } from "../ui/Field.tsx";
import { LengthField } from "./LengthField.tsx";
import { readLength, showLength, unitOfPage, type LengthUnit } from "./lengths.ts";
import {
  mostOf,
  nameOfPage,
  pages,
  type CountName,
  type LengthName,
  type PageName,
  type SheetDraft,
} from "./sheet-draft.ts";
import { useUnitChange } from "./useUnitChange.ts";

interface SheetFieldsProps {
  draft: SheetDraft;
  setDraft: (draft: SheetDraft) => void;
  /** The fields that cannot be read, once that is to be said. */
  faulty: ReadonlySet<LengthName | CountName>;
}

/** The measures of a sheet, as its maker or a ruler gives them. */
export function SheetFields({ draft, setDraft, faulty }: SheetFieldsProps): ReactNode {
  const { sheets: t } = useTexts().labels;
  const { typed, unit } = draft;
  const set = (name: LengthName | CountName) => (text: string) =>
    setDraft({ unit, typed: { ...typed, [name]: text } });
  const length = (name: LengthName) => ({
    unit,
    value: typed[name],
    error: faulty.has(name) ? t.wrongLength : undefined,
    onChange: set(name),
  });
  const count = (name: CountName) => ({
    value: typed[name],
    inputMode: "numeric" as const,
    autoComplete: "off",
    error: faulty.has(name) ? t.wrongCount(mostOf[name]) : undefined,
    onChange: (event: { target: { value: string } }) => set(name)(event.target.value),
  });
  return (
    <>
      <PageChoice {...{ draft, setDraft }} />
      <div className="beside">
        <LengthField label={t.pageWidth} {...length("pageWidthUm")} />
        <LengthField label={t.pageHeight} {...length("pageHeightUm")} />
      </div>
      <div className="beside">
        <TextField label={t.columnsCount} {...count("columns")} />
        <TextField label={t.rowsCount} {...count("rows")} />
      </div>
      <div className="beside">
        <LengthField label={t.labelWidth} {...length("labelWidthUm")} />
        <LengthField label={t.labelHeight} {...length("labelHeightUm")} />
      </div>
      <div className="beside">
        <LengthField label={t.marginLeft} {...length("marginLeftUm")} />
        <LengthField label={t.marginTop} {...length("marginTopUm")} />
      </div>
      <div className="beside">
        <LengthField label={t.pitchX} hint={t.pitchHint} {...length("pitchXUm")} />
        <LengthField label={t.pitchY} hint={t.pitchYHint} {...length("pitchYUm")} />
      </div>
    </>
  );
}

/** A page of a known size, which brings its unit with it; any other is typed. */
function PageChoice({ draft, setDraft }: Omit<SheetFieldsProps, "faulty">): ReactNode {
  const { sheets: t } = useTexts().labels;
  const { language } = useFormats();
  const { typed, unit } = draft;
  const inOther = useUnitChange();
  const { columns, rows, ...lengths } = typed;
  const changeUnit = (next: LengthUnit) =>
    setDraft({ unit: next, typed: { ...inOther(lengths, unit, next), columns, rows } });
  const pageOf = (name: LengthName) => readLength(typed[name], unit) ?? 0;
  const page = nameOfPage({
    pageWidthUm: pageOf("pageWidthUm"),
    pageHeightUm: pageOf("pageHeightUm"),
  });
  function choosePage(name: PageName): void {
    if (name === "other") return setDraft({ unit, typed: { ...typed, ...noPage } });
    const { pageWidthUm, pageHeightUm } = pages[name];
    const next = unitOfPage(pageWidthUm);
    const size = {
      pageWidthUm: showLength(pageWidthUm, next, language),
      pageHeightUm: showLength(pageHeightUm, next, language),
    };
    const others = inOther(lengths, unit, next);
    setDraft({ unit: next, typed: { ...others, ...size, columns, rows } });
  }
  return (
    <>
      <Choice<PageName>
        label={t.page}
        value={page}
        options={(["a4", "letter", "other"] as const).map((value) => ({
          value,
          label: t.pages[value],
        }))}
        onChoose={choosePage}
      />
      <Choice<LengthUnit>
        label={t.unit}
        value={unit}
        options={(["mm", "in"] as const).map((value) => ({ value, label: t.units[value] }))}
        onChoose={changeUnit}
      />
    </>
  );
}

const noPage = { pageWidthUm: "", pageHeightUm: "" };
