import { useState, type ReactNode } from "react";
import { useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { fieldError } from "../ui/States.tsx";
import type { Identifier, Product, ProductInput } from "./facts.ts";
import { isIdentifier, tidyIdentifier } from "./identifier.ts";
import { IdentifierFields } from "./IdentifierFields.tsx";
import { ProductForm } from "./ProductForm.tsx";

/** The identifiers of a product that is not registered yet. */
export type Draft = readonly Identifier[];

interface RegisterFormProps {
  identifiers: Draft;
  onIdentifiers: (identifiers: Draft) => void;
  button: string;
  onRegistered: (product: Product) => void;
  onCancel: () => void;
}

const blank: Identifier = { scheme: "gs1-gtin", value: "", packLevel: "unit", containers: 1 };

/** Registers a product with its facts and identifiers, on a page or while receiving. */
export function RegisterForm(props: RegisterFormProps): ReactNode {
  const { identifiers, onIdentifiers } = props;
  const [tried, setTried] = useState(false);
  const save = useWrite("addProduct", props.onRegistered);
  const tidy = identifiers.filter(({ value }) => value.trim() !== "").map(tidyIdentifier);
  function register(input: ProductInput): void {
    setTried(true);
    if (tidy.every(isIdentifier)) save.mutate({ body: { ...input, identifiers: tidy } });
  }
  return (
    <ProductForm
      start={{}}
      button={props.button}
      busy={save.isPending}
      error={save.error}
      onSave={register}
      onCancel={props.onCancel}
      afterIdentity={
        <IdentifierList
          identifiers={identifiers}
          onChange={onIdentifiers}
          marksWrong={tried}
          error={fieldError(save.error, "identifiers")}
        />
      }
    />
  );
}

interface IdentifierListProps {
  identifiers: Draft;
  onChange: (identifiers: Draft) => void;
  marksWrong: boolean;
  error: string | undefined;
}

function IdentifierList({
  identifiers,
  onChange,
  marksWrong,
  error,
}: IdentifierListProps): ReactNode {
  const t = useTexts();
  const { product, identifier: texts } = t.catalogue;
  const wrongAt = (one: Identifier) =>
    marksWrong && one.value !== "" && !isIdentifier(tidyIdentifier(one))
      ? texts.notValid
      : undefined;
  return (
    <fieldset>
      <legend>{product.identifiers}</legend>
      {identifiers.length === 0 ? <p className="hint">{product.noIdentifiers}</p> : null}
      {identifiers.map((one, place) => (
        // Identifiers are told apart by their place alone while they are typed.
        <div className="identifier-entry" key={place}>
          <IdentifierFields
            value={one}
            error={wrongAt(one) ?? error}
            onChange={(changed) =>
              onChange(identifiers.map((other, at) => (at === place ? changed : other)))
            }
          />
          <Button
            kind="quiet"
            onClick={() => onChange(identifiers.filter((_, at) => at !== place))}
          >
            {t.common.remove}
          </Button>
        </div>
      ))}
      <div className="actions">
        <Button onClick={() => onChange([...identifiers, blank])}>{product.addIdentifier}</Button>
      </div>
    </fieldset>
  );
}
