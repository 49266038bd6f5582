import type { ReactNode } from "react";
import { containerStates } from "#domain";
import { getMessages } from "#texts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import type { Filter } from "../ui/useFilter.ts";

/** What is shown of the shelf; each part stands in the address. */
export function ShelfFilter({ filter }: { filter: Filter }): ReactNode {
  const { shelf: t } = useTexts();
  const { language } = useFormats();
  const locations = useRead("listLocations", {}, { staleMs: 300_000 }).data?.locations ?? [];
  const products = useRead("listProducts", {}, { staleMs: 300_000 }).data?.products ?? [];
  const stateNames = getMessages(language).containerStates;
  const lot = filter.get("lot");
  const isSet = ["location", "product", "lot", "state", "q"].some(
    (part) => filter.get(part) !== "",
  );
  const choose = (name: string) => ({
    value: filter.get(name),
    onChange: (event: { target: { value: string } }) => filter.set({ [name]: event.target.value }),
  });
  return (
    <search className="sieve">
      <TextField label={t.filter.search} type="search" {...choose("q")} />
      <Select label={t.filter.place} {...choose("location")}>
        <option value="">{t.filter.everyPlace}</option>
        {locations
          .filter(({ outside }) => !outside)
          .map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
      </Select>
      <Select label={t.filter.product} {...choose("product")}>
        <option value="">{t.filter.everyProduct}</option>
        {products.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </Select>
      <Select label={t.filter.state} {...choose("state")}>
        <option value="">{t.filter.everyState}</option>
        {containerStates.map((state) => (
          <option key={state} value={state}>
            {stateNames[state]}
          </option>
        ))}
        <option value="all">{t.filter.all}</option>
      </Select>
      {lot === "" ? null : (
        <Button onClick={() => filter.set({ lot: "" })}>{t.filter.onlyLot(lot)} ✕</Button>
      )}
      {isSet ? (
        <LinkButton kind="quiet" to={paths.shelf()}>
          {t.filter.clear}
        </LinkButton>
      ) : null}
    </search>
  );
}
