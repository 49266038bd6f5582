import type { ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Choice } from "../ui/Field.tsx";

const asItIs = "as-it-is";
const none = "none";

interface OtherSealProps {
  record: AnswerOf<"getRecord">;
  /** Undefined where it stays as it is, null where it builds on none. */
  sealId: string | null | undefined;
  onChoose: (sealId: string | null | undefined) => void;
}

/** At a bonding: the seal that it really builds on. */
export function OtherSeal({ record, sealId, onChoose }: OtherSealProps): ReactNode {
  const { amend: t, waiting } = useTexts();
  const { date } = useFormats();
  const params = { trayId: record.trayId };
  const { data } = useRead("getTraySeals", { params });
  const seals = data?.teeth.find(({ tooth }) => tooth === record.tooth)?.seals ?? [];
  const others = seals.filter((one) => one.sealId !== record.seal?.id);
  return (
    <Choice
      label={waiting.linked.title}
      options={[
        { value: asItIs, label: t.sealAsItIs },
        ...others.map((one) => ({
          value: one.sealId,
          label: waiting.choice.seal(date(one.sealedOn)),
        })),
        ...(record.seal === null ? [] : [{ value: none, label: waiting.choice.none }]),
      ]}
      value={sealId === undefined ? asItIs : (sealId ?? none)}
      onChoose={(value) => onChoose(value === asItIs ? undefined : value === none ? null : value)}
    />
  );
}
