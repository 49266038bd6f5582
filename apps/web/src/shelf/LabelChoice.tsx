import type { ReactNode } from "react";
import { showOwnCode } from "#domain";
import { mostLabels, sizeFor } from "../labels/label-size.ts";
import { PrintButton } from "../labels/PrintButton.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import type { Column } from "../ui/column.ts";
import type { Container } from "../ui/ContainerWords.tsx";

interface LabelChoiceProps {
  containers: readonly Container[];
  chosen: ReadonlySet<string>;
  onEnd: () => void;
}

/** Choosing whose labels are printed: those ticked in the list, or all that are shown. */
export function LabelChoice({ containers, chosen, onEnd }: LabelChoiceProps): ReactNode {
  const { choosing: t, print } = useTexts().labels;
  const ticked = containers.filter(({ id }) => chosen.has(id));
  const wanted = ticked.length === 0 ? containers : ticked;
  return (
    <section className="panel label-choice" aria-label={t.begin}>
      <p>{wanted.length > mostLabels ? print.tooMany(mostLabels) : t.lead}</p>
      <div className="actions">
        {wanted.length > mostLabels || wanted.length === 0 ? null : (
          <PrintButton
            kind="main"
            subjects={wanted.map(({ id }) => ({ kind: "container", id }))}
            size={sizeFor(wanted.map(({ product }) => product.kind))}
          >
            {ticked.length === 0 ? t.all(wanted.length) : t.chosen(ticked.length)}
          </PrintButton>
        )}
        <Button kind="quiet" onClick={onEnd}>
          {t.end}
        </Button>
      </div>
    </section>
  );
}

type Chosen = ReadonlySet<string>;

/** The column in which containers are ticked; none where nothing is being chosen. */
export function useChoiceColumn(
  chosen: Chosen | null,
  onChoose: (chosen: Chosen) => void,
): readonly Column<Container>[] {
  const { choosing: t } = useTexts().labels;
  if (chosen === null) return [];
  const toggle = (id: string) => {
    const next = new Set(chosen);
    if (!next.delete(id)) next.add(id);
    onChoose(next);
  };
  const show = ({ id, product, code }: Container) => (
    <label className="check">
      <input
        type="checkbox"
        aria-label={t.chooseOne(`${product.name} ${showOwnCode(code)}`)}
        checked={chosen.has(id)}
        onChange={() => toggle(id)}
      />
    </label>
  );
  return [{ key: "choose", label: t.choose, show }];
}
