import { useState, type ReactNode } from "react";
import { isOutsideStorage } from "#domain";
import { formatNumber } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Select, TextArea } from "../ui/Field.tsx";
import { EmptyState, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { useFilter, type Filter } from "../ui/useFilter.ts";
import { VerdictShape } from "../ui/Verdict.tsx";
import { ExcursionDialog } from "./ExcursionDialog.tsx";
import "./lights.css";

type Excursion = AnswerOf<"listExcursions">["excursions"][number];

/** Where it was too cold or too warm, what stood there, and what was decided. */
export function TemperaturesPart(): ReactNode {
  const { keeping, states } = useTexts();
  const { temperatures: t } = keeping;
  const query = useRead("listExcursions");
  const filter = useFilter();
  const [isOpen, open] = useState(false);
  const [settled, settle] = useState<Excursion | null>(null);
  const [place, standing] = [filter.get("place"), filter.get("settled")];
  const fits = ({ location, resolved }: Excursion): boolean =>
    (place === "" || location.id === place) &&
    (standing === "" || (resolved !== null) === (standing === "yes"));
  return (
    <>
      <p className="lead">{t.lead}</p>
      <ExcursionFilter
        filter={filter}
        excursions={query.data?.excursions ?? []}
        onOpen={() => open(true)}
      />
      <QueryView query={query}>
        {({ excursions }) => {
          const rows = excursions.filter(fits);
          if (rows.length > 0) return <ExcursionTable rows={rows} onSettle={settle} />;
          return <EmptyState text={excursions.length === 0 ? t.none : states.noMatch} />;
        }}
      </QueryView>
      {isOpen ? <ExcursionDialog onClose={() => open(false)} /> : null}
      {settled === null ? null : <SettleDialog excursion={settled} onClose={() => settle(null)} />}
    </>
  );
}

interface ExcursionFilterProps {
  filter: Filter;
  excursions: readonly Excursion[];
  onOpen: () => void;
}

function ExcursionFilter({ filter, excursions, onOpen }: ExcursionFilterProps): ReactNode {
  const { temperatures: t } = useTexts().keeping;
  const places = new Map(excursions.map(({ location }) => [location.id, location.name]));
  return (
    <search className="sieve">
      <Select
        label={t.place}
        value={filter.get("place")}
        onChange={({ target }) => filter.set({ place: target.value })}
      >
        <option value="">{t.anyPlace}</option>
        {[...places].map(([id, name]) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </Select>
      <Select
        label={t.standing}
        value={filter.get("settled")}
        onChange={({ target }) => filter.set({ settled: target.value })}
      >
        <option value="">{t.anyStanding}</option>
        <option value="no">{t.openState}</option>
        <option value="yes">{t.settledState}</option>
      </Select>
      <Button kind="main" onClick={onOpen}>
        {t.open}
      </Button>
    </search>
  );
}

interface ExcursionTableProps {
  rows: readonly Excursion[];
  onSettle: (excursion: Excursion) => void;
}

function ExcursionTable({ rows, onSettle }: ExcursionTableProps): ReactNode {
  const { keeping, practice } = useTexts();
  const { temperatures: t } = keeping;
  const { language, dateTime } = useFormats();
  const degrees = (value: number | null): string =>
    value === null ? "" : t.degrees(formatNumber(language, value));
  const columns: readonly Column<Excursion>[] = [
    {
      key: "place",
      label: t.place,
      value: ({ location }) => location.name,
      show: ({ location, note }) => (
        <>
          <strong>{location.name}</strong>
          {note === "" ? null : <p className="hint">{note}</p>}
        </>
      ),
    },
    { key: "from", label: t.from, value: ({ from }) => from, show: ({ from }) => dateTime(from) },
    { key: "to", label: t.to, value: ({ to }) => to, show: ({ to }) => dateTime(to) },
    {
      key: "lowest",
      label: t.lowest,
      value: ({ lowestC }) => lowestC,
      show: ({ lowestC }) => degrees(lowestC),
    },
    {
      key: "highest",
      label: t.highest,
      value: ({ highestC }) => highestC,
      show: ({ highestC }) => degrees(highestC),
    },
    {
      key: "stood",
      label: t.stood,
      value: ({ products }) =>
        products.map(({ name, containers }) => `${name}: ${containers}`).join("; "),
      show: (excursion) => <StoodThere excursion={excursion} />,
    },
    {
      key: "decision",
      label: t.decisionOf,
      value: ({ resolved }) => resolved?.resolution ?? t.openState,
      show: (one) => <Decision excursion={one} onSettle={() => onSettle(one)} />,
    },
  ];
  return (
    <Table
      caption={practice.parts.temperatures}
      columns={columns}
      rows={rows}
      rowKey={({ id }) => id}
      exportName="excursions"
    />
  );
}

/** Which products stood there and are still here, and how each is to be kept. */
function StoodThere({ excursion }: { excursion: Excursion }): ReactNode {
  const { temperatures: t } = useTexts().keeping;
  const { language } = useFormats();
  const degrees = (value: number | null): string =>
    value === null ? "" : t.degrees(formatNumber(language, value));
  if (excursion.products.length === 0) return t.stoodNothing;
  return (
    <ul className="stood-there">
      {excursion.products.map((product) => {
        const { id, name, containers, storageMinC: min, storageMaxC: max } = product;
        return (
          <li key={id}>
            {`${containers} × ${name}`}
            {min === null && max === null ? null : (
              <span className="hint"> {t.keptAt(degrees(min), degrees(max))}</span>
            )}
            {isOutsideStorage(excursion, product) ? <strong> {t.outside}</strong> : null}
          </li>
        );
      })}
    </ul>
  );
}

interface DecisionProps {
  excursion: Excursion;
  onSettle: () => void;
}

function Decision({ excursion: { resolved }, onSettle }: DecisionProps): ReactNode {
  const { temperatures: t } = useTexts().keeping;
  const { dateTime } = useFormats();
  const decides = useHasRole("dentist", "owner");
  return (
    <>
      <p className={resolved === null ? "light-state due" : "light-state good"}>
        <VerdictShape verdict={resolved === null ? "caution" : "clear"} />
        <strong>{resolved === null ? t.openState : t.settledState}</strong>
      </p>
      {resolved === null ? null : (
        <p>
          {resolved.resolution}{" "}
          <span className="hint">{t.settled(resolved.by, dateTime(resolved.at))}</span>
        </p>
      )}
      {resolved !== null ? null : decides ? (
        <Button className="screen-only" onClick={onSettle}>
          {t.settle}
        </Button>
      ) : (
        <p className="hint">{t.dentistDecides}</p>
      )}
    </>
  );
}

interface SettleDialogProps {
  excursion: Excursion;
  onClose: () => void;
}

function SettleDialog({ excursion, onClose }: SettleDialogProps): ReactNode {
  const { keeping, common } = useTexts();
  const { temperatures: t } = keeping;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [resolution, setResolution] = useState("");
  const save = useWrite("resolveExcursion", () => {
    refresh("listExcursions", "getTray", "getToday");
    announce({ text: t.decided });
    onClose();
  });
  return (
    <Dialog
      title={t.settleTitle(excursion.location.name)}
      onClose={onClose}
      closeLabel={common.cancel}
    >
      <p>{t.settleText}</p>
      <StoodThere excursion={excursion} />
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          save.mutate({ params: { excursionId: excursion.id }, body: { resolution } });
        }}
      >
        <TextArea
          label={t.decision}
          value={resolution}
          minLength={5}
          maxLength={2000}
          required
          onChange={({ target }) => setResolution(target.value)}
        />
        <ProblemNote error={save.error} />
        <Button
          kind="main"
          type="submit"
          busy={save.isPending}
          disabled={resolution.trim().length < 5}
        >
          {t.settle}
        </Button>
      </form>
    </Dialog>
  );
}
