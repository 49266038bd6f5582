import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Select, TextField } from "../ui/Field.tsx";
import type { Identifier } from "./facts.ts";

const schemes = ["gs1-gtin", "hibc", "ppn"] as const;
const packLevels = ["unit", "box", "case"] as const;

interface IdentifierFieldsProps {
  value: Identifier;
  onChange: (identifier: Identifier) => void;
  error?: string | undefined;
}

/** One device identifier: who issued it, its text, and how many containers a pack of it holds. */
export function IdentifierFields({ value, onChange, error }: IdentifierFieldsProps): ReactNode {
  const { identifier: t } = useTexts().catalogue;
  const change = (part: Partial<Identifier>) => onChange({ ...value, ...part });
  return (
    <>
      <div className="beside">
        <Select
          label={t.scheme}
          value={value.scheme}
          onChange={({ target }) =>
            change({ scheme: schemes.find((one) => one === target.value) ?? "gs1-gtin" })
          }
        >
          {schemes.map((scheme) => (
            <option key={scheme} value={scheme}>
              {t.schemes[scheme]}
            </option>
          ))}
        </Select>
        <TextField
          label={t.value}
          hint={t.valueHints[value.scheme]}
          className="code"
          value={value.value}
          maxLength={40}
          autoComplete="off"
          spellCheck={false}
          error={error}
          onChange={({ target }) => change({ value: target.value })}
        />
      </div>
      <div className="beside">
        <Select
          label={t.packLevel}
          value={value.packLevel}
          onChange={({ target }) =>
            change({ packLevel: packLevels.find((one) => one === target.value) ?? "unit" })
          }
        >
          {packLevels.map((level) => (
            <option key={level} value={level}>
              {t.packLevels[level]}
            </option>
          ))}
        </Select>
        <TextField
          label={t.containers}
          type="number"
          inputMode="numeric"
          min={1}
          max={10_000}
          required
          value={value.containers}
          onChange={({ target }) => change({ containers: Math.max(1, target.valueAsNumber || 1) })}
        />
      </div>
    </>
  );
}
