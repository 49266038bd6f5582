import { useState, type FormEvent, type ReactNode } from "react";
import { Link } from "wouter";
import { shelfKinds } from "#domain";
import { getMessages } from "#texts";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Choice, TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";

/** The places containers can be at; those outside are there for the books. */
export function PlacesPart(): ReactNode {
  const { places: t } = useTexts().practice;
  const { language } = useFormats();
  const { locationKinds } = getMessages(language);
  const mayAdd = useHasRole("office", "owner");
  const query = useRead("listLocations");
  return (
    <>
      <p className="lead">{t.lead}</p>
      <QueryView query={query}>
        {({ locations }) => (
          <Table
            caption={t.lead}
            rows={locations}
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
                show: ({ outside }) =>
                  outside ? <span className="soft">{t.outside}</span> : t.inside,
              },
            ]}
          />
        )}
      </QueryView>
      {mayAdd ? <AddPlace /> : <p className="hint">{t.officeAdds}</p>}
    </>
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
