import { useState, type ReactNode } from "react";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";

interface SystemFieldProps {
  value: string;
  onChoose: (systemId: string) => void;
  error: string | undefined;
}
const newSystem = "new";

/** The bonding system a product belongs to; one that is not there yet can be added at once. */
export function SystemField({ value, onChoose, error }: SystemFieldProps): ReactNode {
  const { form, facts } = useTexts().catalogue;
  const { data } = useRead("listSystems", {}, { staleMs: 60_000 });
  const [adding, setAdding] = useState(false);
  return (
    <>
      <Select
        label={facts.systemId}
        value={value}
        error={error}
        onChange={(event) => {
          if (event.target.value === newSystem) setAdding(true);
          else onChoose(event.target.value);
        }}
      >
        <option value="">{form.systemNone}</option>
        {(data?.systems ?? []).map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
        <option value={newSystem}>{form.newSystem}</option>
      </Select>
      {adding ? (
        <NewSystemDialog
          onClose={() => setAdding(false)}
          onAdded={(systemId) => {
            setAdding(false);
            onChoose(systemId);
          }}
        />
      ) : null}
    </>
  );
}

interface NewSystemProps {
  onClose: () => void;
  onAdded: (systemId: string) => void;
}

// No form of its own: it stands inside the form of the product.
function NewSystemDialog({ onClose, onAdded }: NewSystemProps): ReactNode {
  const t = useTexts();
  const refresh = useRefresh();
  const [name, setName] = useState("");
  const add = useWrite("addSystem", (system) => {
    refresh("listSystems");
    onAdded(system.id);
  });
  const save = () => {
    if (name.trim() !== "") add.mutate({ body: { name: name.trim() } });
  };
  return (
    <Dialog
      title={t.catalogue.systems.add}
      onClose={onClose}
      closeLabel={t.common.cancel}
      actions={
        <Button kind="main" busy={add.isPending} onClick={save}>
          {t.catalogue.systems.add}
        </Button>
      }
    >
      <TextField
        label={t.catalogue.systems.name}
        value={name}
        maxLength={200}
        autoComplete="off"
        onChange={(event) => setName(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== "Enter") return;
          event.preventDefault();
          save();
        }}
      />
      <ProblemNote error={add.error} />
    </Dialog>
  );
}
