import { useState, type FormEvent, type ReactNode } from "react";
import { roles, type Role } from "#domain";
import { getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { CheckField, TextField } from "../ui/Field.tsx";
import { EmptyState, fieldError, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";

type Person = AnswerOf<"listPeople">["people"][number];

/** Who works here, and as what; the owner adds people. */
export function PeoplePart(): ReactNode {
  const { people: t } = useTexts().practice;
  const isOwner = useHasRole("owner");
  const query = useRead("listPeople");
  const columns = usePersonColumns();
  return (
    <>
      <p className="lead">{t.lead}</p>
      <QueryView query={query}>
        {({ people }) =>
          people.length === 0 ? (
            <EmptyState text={t.empty} />
          ) : (
            <Table
              caption={t.lead}
              columns={columns}
              rows={people}
              rowKey={({ id }) => id}
              exportName="people"
            />
          )
        }
      </QueryView>
      {isOwner ? <AddPerson /> : <p className="hint">{t.ownerAdds}</p>}
    </>
  );
}

function usePersonColumns(): readonly Column<Person>[] {
  const { people: t } = useTexts().practice;
  const { language } = useFormats();
  const { roles: names } = getMessages(language);
  const of = (key: keyof typeof t.columns, value: (person: Person) => string): Column<Person> => ({
    key,
    label: t.columns[key],
    value,
    show: value,
  });
  return [
    {
      ...of("name", ({ displayName }) => displayName),
      show: ({ displayName }) => <strong>{displayName}</strong>,
    },
    of("signInName", ({ signInName }) => signInName),
    of("roles", (person) => person.roles.map((role) => names[role]).join(", ")),
    of("pin", ({ hasPin }) => (hasPin ? t.hasPin : t.noPin)),
    of("state", ({ active }) => (active ? t.active : t.inactive)),
  ];
}

function AddPerson(): ReactNode {
  const { people: t } = useTexts().practice;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [chosen, setChosen] = useState<readonly Role[]>([]);
  const [tried, setTried] = useState(false);
  const [told, setTold] = useState({ displayName: "", signInName: "", password: "" });
  const add = useWrite("addPerson", (person) => {
    refresh("listPeople");
    announce({ text: t.added(person.displayName) });
    setTold({ displayName: "", signInName: "", password: "" });
    setChosen([]);
    setTried(false);
  });
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    if (chosen.length > 0) add.mutate({ body: { ...told, roles: [...chosen] } });
  }
  const field = (name: keyof typeof told) => ({
    value: told[name],
    required: true,
    error: fieldError(add.error, name),
    onChange: (event: { target: { value: string } }) =>
      setTold({ ...told, [name]: event.target.value }),
  });
  return (
    <section className="panel">
      <form className="form" onSubmit={submit}>
        <h2>{t.add}</h2>
        <div className="beside">
          <TextField
            {...field("displayName")}
            label={t.name}
            hint={t.nameHint}
            maxLength={200}
            autoComplete="off"
          />
          <TextField
            {...field("signInName")}
            label={t.signInName}
            hint={t.signInHint}
            pattern="[A-Za-z0-9][A-Za-z0-9._\-]{1,63}"
            autoCapitalize="off"
            autoComplete="off"
          />
          <TextField
            {...field("password")}
            label={t.password}
            hint={t.passwordHint}
            type="password"
            minLength={8}
            maxLength={128}
            autoComplete="new-password"
          />
        </div>
        <RoleFields {...{ chosen }} onChoose={setChosen} isMissing={tried && chosen.length === 0} />
        <ProblemNote error={add.error} />
        <Button kind="main" type="submit" busy={add.isPending}>
          {t.button}
        </Button>
      </form>
    </section>
  );
}

interface RoleFieldsProps {
  chosen: readonly Role[];
  onChoose: (roles: readonly Role[]) => void;
  isMissing: boolean;
}

function RoleFields({ chosen, onChoose, isMissing }: RoleFieldsProps): ReactNode {
  const { people: t } = useTexts().practice;
  const { language } = useFormats();
  const { roles: names } = getMessages(language);
  return (
    <fieldset className="role-fields">
      <legend>{t.roles}</legend>
      {roles.map((role) => (
        <CheckField
          key={role}
          label={
            <>
              <strong>{names[role]}</strong> <span className="soft">{t.roleHints[role]}</span>
            </>
          }
          checked={chosen.includes(role)}
          onChange={(event) =>
            onChoose(
              event.target.checked ? [...chosen, role] : chosen.filter((one) => one !== role),
            )
          }
        />
      ))}
      {isMissing ? (
        <p className="field-error" role="alert">
          {t.rolesMissing}
        </p>
      ) : null}
    </fieldset>
  );
}
