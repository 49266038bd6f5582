import { useState, type FormEvent, type ReactNode } from "react";
import { useLocation } from "wouter";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { CheckField, Select, TextArea, TextField } from "../ui/Field.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";

export interface Covered {
  productId: string;
  productName: string;
  /** Empty: every lot of the product. */
  lot: string;
}

interface EnterDialogProps {
  /** What a trace has found: taken as covered, unless it is unticked. */
  offered: readonly Covered[];
  /** The lot that was asked for, to begin with. */
  lot: string;
  onClose: () => void;
}

const nameOf = ({ productId, lot }: Covered): string => `${productId} ${lot}`;

function withOrWithout(
  names: ReadonlySet<string>,
  name: string,
  isIn: boolean,
): ReadonlySet<string> {
  const next = new Set(names);
  if (isIn) next.add(name);
  else next.delete(name);
  return next;
}

/** Enters a notice: what it is called and what it covers. */
export function EnterDialog({ offered, lot, onClose }: EnterDialogProps): ReactNode {
  const t = useTexts();
  const { enter: texts } = t.withdrawal;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const [reference, setReference] = useState("");
  const [note, setNote] = useState("");
  const [listed, setListed] = useState(offered);
  const [covered, setCovered] = useState<ReadonlySet<string>>(new Set(offered.map(nameOf)));
  const [tried, setTried] = useState(false);
  const open = useWrite("openWithdrawal", (opened) => {
    refresh("listWithdrawals", "traceStock", "getToday", "listContainers", "getTray", "listTrays");
    announce({ text: texts.done(opened.reference) });
    onClose();
    navigate(paths.withdrawal(opened.id));
  });
  const cover = (one: Covered, isCovered: boolean): void =>
    setCovered(withOrWithout(covered, nameOf(one), isCovered));
  function add(one: Covered): void {
    if (!listed.some((other) => nameOf(other) === nameOf(one))) setListed([...listed, one]);
    cover(one, true);
  }
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    const scope = listed
      .filter((one) => covered.has(nameOf(one)))
      .map(({ productId, lot: ofLot }) => ({ productId, lot: ofLot }));
    if (scope.length > 0) open.mutate({ body: { reference: reference.trim(), note, scope } });
  }
  return (
    <Dialog title={texts.title} onClose={onClose} closeLabel={t.common.cancel} wide>
      <form className="form enter-form" onSubmit={submit}>
        <p>{texts.text}</p>
        <TextField
          label={texts.reference}
          hint={texts.referenceHint}
          value={reference}
          required
          maxLength={200}
          autoComplete="off"
          error={fieldError(open.error, "reference")}
          onChange={(event) => setReference(event.target.value)}
        />
        <TextArea
          label={texts.note}
          hint={texts.noteHint}
          value={note}
          maxLength={2000}
          onChange={(event) => setNote(event.target.value)}
        />
        <ScopeList {...{ listed, covered }} onCover={cover} />
        <MoreScope lot={offered.length === 0 ? lot : ""} onAdd={add} />
        {tried && covered.size === 0 ? (
          <p className="field-error" role="alert">
            {texts.nothing}
          </p>
        ) : null}
        <ProblemNote error={open.error} />
        <Button kind="main" type="submit" busy={open.isPending}>
          {texts.button}
        </Button>
      </form>
    </Dialog>
  );
}

interface ScopeListProps {
  listed: readonly Covered[];
  covered: ReadonlySet<string>;
  onCover: (one: Covered, isCovered: boolean) => void;
}

function ScopeList({ listed, covered, onCover }: ScopeListProps): ReactNode {
  const { enter: texts } = useTexts().withdrawal;
  if (listed.length === 0) return null;
  return (
    <fieldset className="scope">
      <legend>{texts.scope}</legend>
      {listed.map((one) => (
        <CheckField
          key={nameOf(one)}
          label={
            one.lot === ""
              ? texts.scopeAll(one.productName)
              : texts.scopeOf(one.productName, one.lot)
          }
          checked={covered.has(nameOf(one))}
          onChange={(event) => onCover(one, event.target.checked)}
        />
      ))}
    </fieldset>
  );
}

interface MoreScopeProps {
  lot: string;
  onAdd: (one: Covered) => void;
}

/** Another product or lot, also one that never came: the next delivery of it is refused. */
function MoreScope({ lot: start, onAdd }: MoreScopeProps): ReactNode {
  const { enter: texts } = useTexts().withdrawal;
  const products = useRead("listProducts", {}, { staleMs: 60_000 }).data?.products ?? [];
  const [productId, setProductId] = useState("");
  const [lot, setLot] = useState(start);
  const product = products.find(({ id }) => id === productId);
  return (
    <fieldset className="scope">
      <legend>{texts.more}</legend>
      <div className="beside">
        <Select
          label={texts.product}
          value={productId}
          onChange={(event) => setProductId(event.target.value)}
        >
          <option value="">–</option>
          {products.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </Select>
        <TextField
          label={texts.lot}
          hint={texts.lotHint}
          className="code"
          value={lot}
          maxLength={40}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => setLot(event.target.value)}
        />
      </div>
      <Button
        disabled={product === undefined}
        onClick={() => {
          if (product === undefined) return;
          onAdd({ productId, productName: product.name, lot: lot.trim() });
          setProductId("");
          setLot("");
        }}
      >
        {texts.addScope}
      </Button>
    </fieldset>
  );
}
