import { useState, type FormEvent, type ReactNode } from "react";
import { Link } from "wouter";
import { shelfKinds } from "#domain";
import { getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { PrintOverlay } from "../labels/PrintButton.tsx";
import type { LabelsToPrint } from "../labels/usePrintWork.ts";
import { paths } from "../paths.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Choice, TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";

type Place = AnswerOf<"listLocations">["locations"][number];

/** The places containers can be at; those outside are there for the books. */
export function PlacesPart(): ReactNode {
  const { practice, labels } = useTexts();
  const { places: t } = practice;
  const mayAdd = useHasRole("office", "owner");
  const query = useRead("listLocations");
  const [printing, print] = useState<LabelsToPrint | null>(null);
  const printOf = (places: readonly Place[]) =>
    print({ subjects: places.map(({ id }) => ({ kind: "location", id })), size: "place" });
  return (
    <>
      <p className="lead">{t.lead}</p>
      <QueryView query={query}>
        {({ locations }) => (
          <>
            <PlaceTable places={locations} onPrint={(place) => printOf([place])} />
            <div className="actions">
              <Button onClick={() => printOf(locations.filter(({ outside }) => !outside))}>
                {labels.print.ofEveryPlace}
              </Button>
            </div>
          </>
        )}
      </QueryView>
      <PrintOverlay labels={printing} onClose={() => print(null)} />
      {mayAdd ? <AddPlace /> : <p className="hint">{t.officeAdds}</p>}
    </>
  );
}

interface PlaceTableProps {
  places: readonly Place[];
  onPrint: (place: Place) => void;
}

function PlaceTable({ places, onPrint }: PlaceTableProps): ReactNode {
  const { practice, labels } = useTexts();
  const { places: t } = practice;
  const { language } = useFormats();
  const { locationKinds } = getMessages(language);
  return (
    <Table
      caption={t.lead}
      rows={places}
      rowKey={({ id }) => id}
      exportName="places"
      columns={[
        {
          key: "name",
          label: t.columns.name,
          value: ({ name }) => name,
          show: ({ id, name, outside }) =>
            outside ? (
              name
            ) : (
              <Link
                to={paths.shelf({ location: id })}
                className="name-link"
                aria-label={t.toShelf(name)}
              >
                {name}
              </Link>
            ),
        },
        {
          key: "kind",
          label: t.columns.kind,
          value: ({ kind }) => locationKinds[kind],
          show: ({ kind }) => locationKinds[kind],
        },
        {
          key: "where",
          label: t.columns.where,
          value: ({ outside }) => (outside ? t.outside : t.inside),
          show: ({ outside }) => (outside ? <span className="soft">{t.outside}</span> : t.inside),
        },
        {
          key: "label",
          label: t.columns.label,
          show: (place) =>
            place.outside ? null : (
              <Button aria-label={labels.print.ofPlace(place.name)} onClick={() => onPrint(place)}>
                {labels.print.ofPlaceShort}
              </Button>
            ),
        },
      ]}
    />
  );
}

type ShelfKind = (typeof shelfKinds)[number];

function AddPlace(): ReactNode {
  const { places: t } = useTexts().practice;
  const { language } = useFormats();
  const { locationKinds } = getMessages(language);
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [name, setName] = useState("");
  const [kind, setKind] = useState<ShelfKind>("operatory");
  const add = useWrite("addLocation", (place) => {
    refresh("listLocations");
    announce({ text: t.added(place.name) });
    setName("");
  });
  function submit(event: FormEvent): void {
    event.preventDefault();
    add.mutate({ body: { name: name.trim(), kind } });
  }
  return (
    <section className="panel">
      <form className="form" onSubmit={submit}>
        <h2>{t.add}</h2>
        <TextField
          label={t.name}
          value={name}
          required
          maxLength={100}
          autoComplete="off"
          error={fieldError(add.error, "name")}
          onChange={(event) => setName(event.target.value)}
        />
        <Choice<ShelfKind>
          label={t.kind}
          value={kind}
          options={shelfKinds.map((value) => ({ value, label: locationKinds[value] }))}
          onChoose={setKind}
        />
        <ProblemNote error={add.error} />
        <Button kind="main" type="submit" busy={add.isPending}>
          {t.button}
        </Button>
      </form>
    </section>
  );
}
