import { useState, type ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";

/** How many uses the shelves still give of a product, and from when on that is low. */
export function UsesLeft({ productId }: { productId: string }): ReactNode {
  const { stock: t } = useTexts().keeping;
  const query = useRead("getProductStock", { params: { productId } });
  return (
    <section className="panel">
      <h2>{t.title}</h2>
      <QueryView query={query}>
        {(stock) =>
          stock.usesLeft === null ? (
            <p className="hint">{t.notStated}</p>
          ) : (
            <>
              <p>{t.left(stock.usesLeft)}</p>
              <PointForm productId={productId} stock={stock} />
            </>
          )
        }
      </QueryView>
    </section>
  );
}

interface PointFormProps {
  productId: string;
  stock: AnswerOf<"getProductStock">;
}

function PointForm({ productId, stock }: PointFormProps): ReactNode {
  const { keeping, common } = useTexts();
  const { stock: t } = keeping;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [point, setPoint] = useState(String(stock.reorderUses ?? ""));
  const save = useWrite("setReorderPoint", () => {
    refresh("getProductStock", "getTray");
    announce({ text: t.saved });
  });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        const reorderUses = point.trim() === "" ? null : Number(point);
        save.mutate({ params: { productId }, body: { reorderUses } });
      }}
    >
      <TextField
        label={t.point}
        hint={t.pointHint}
        type="number"
        min={1}
        max={100_000}
        value={point}
        onChange={({ target }) => setPoint(target.value)}
      />
      <ProblemNote error={save.error} />
      <Button type="submit" busy={save.isPending}>
        {common.save}
      </Button>
    </form>
  );
}
