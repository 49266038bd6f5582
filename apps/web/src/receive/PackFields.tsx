import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Choice } from "../ui/Field.tsx";
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
  const set = (count: number) => onQuantity(Math.min(Math.max(count, 1), mostPacks));
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
      <div className="field">
        <label htmlFor="receive-quantity">{next.quantity}</label>
        <div className="stepper">
          <Button
            aria-label={next.fewer}
            disabled={quantity <= 1}
            onClick={() => set(quantity - 1)}
          >
            −
          </Button>
          <input
            id="receive-quantity"
            className="input"
            type="number"
            inputMode="numeric"
            min={1}
            max={mostPacks}
            value={quantity}
            aria-describedby="receive-quantity-hint"
            onChange={(event) => set(event.target.valueAsNumber || 1)}
          />
          <Button aria-label={next.more} onClick={() => set(quantity + 1)}>
            +
          </Button>
        </div>
        <p className="hint" id="receive-quantity-hint">
          {next.quantityHint}
        </p>
      </div>
    </>
  );
}
