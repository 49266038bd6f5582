import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Choice } from "../ui/Field.tsx";
import { Stepper } from "../ui/Stepper.tsx";
import type { Place } from "./usePlace.ts";

interface PackFieldsProps {
  place: Place | null;
  places: readonly Place[];
  onPlace: (id: string) => void;
  quantity: number;
  onQuantity: (quantity: number) => void;
}

const mostPacks = 1000;

/** Where the next pack goes, and how many of it there are. */
export function PackFields(props: PackFieldsProps): ReactNode {
  const { next } = useTexts().receive;
  const { place, places, onPlace, quantity, onQuantity } = props;
  return (
    <>
      <h2>{next.title}</h2>
      {places.length === 0 ? (
        <p>{next.noPlace}</p>
      ) : (
        <Choice
          label={next.place}
          value={place?.id ?? null}
          options={places.map(({ id, name }) => ({ value: id, label: name }))}
          onChoose={onPlace}
        />
      )}
      <Stepper
        label={next.quantity}
        hint={next.quantityHint}
        value={quantity}
        most={mostPacks}
        onChange={onQuantity}
      />
    </>
  );
}
