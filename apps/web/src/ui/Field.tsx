import {
  useId,
  type InputHTMLAttributes,
  type ReactNode,
  type SelectHTMLAttributes,
  type TextareaHTMLAttributes,
} from "react";

interface FrameProps {
  label: string;
  hint?: ReactNode;
  /** What is wrong with the value; said to screen readers with the field. */
  error?: string | undefined;
}

interface Described {
  id: string;
  "aria-describedby": string | undefined;
  "aria-invalid": true | undefined;
}

function useDescribed({ hint, error }: FrameProps): Described {
  const id = useId();
  const described = [hint ? `${id}-hint` : "", error ? `${id}-error` : ""].join(" ").trim();
  return {
    id,
    "aria-describedby": described === "" ? undefined : described,
    "aria-invalid": error === undefined ? undefined : true,
  };
}

function Frame({
  id,
  label,
  hint,
  error,
  children,
}: FrameProps & { id: string; children: ReactNode }) {
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {children}
      {hint ? (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
      {error ? (
        <p className="field-error" id={`${id}-error`}>
          {error}
        </p>
      ) : null}
    </div>
  );
}

export function TextField(props: FrameProps & InputHTMLAttributes<HTMLInputElement>): ReactNode {
  const { label, hint, error, ...input } = props;
  const described = useDescribed(props);
  return (
    <Frame {...{ label, hint, error, id: described.id }}>
      <input {...input} {...described} className={`input ${input.className ?? ""}`} />
    </Frame>
  );
}

export function TextArea(
  props: FrameProps & TextareaHTMLAttributes<HTMLTextAreaElement>,
): ReactNode {
  const { label, hint, error, ...input } = props;
  const described = useDescribed(props);
  return (
    <Frame {...{ label, hint, error, id: described.id }}>
      <textarea rows={3} {...input} {...described} className="input" />
    </Frame>
  );
}

/** A choice among few: a native select with `<option>`s as children. */
export function Select(props: FrameProps & SelectHTMLAttributes<HTMLSelectElement>): ReactNode {
  const { label, hint, error, ...select } = props;
  const described = useDescribed(props);
  return (
    <Frame {...{ label, hint, error, id: described.id }}>
      <select {...select} {...described} className="input" />
    </Frame>
  );
}

export function CheckField({
  label,
  ...input
}: { label: ReactNode } & InputHTMLAttributes<HTMLInputElement>) {
  return (
    <label className="check">
      <input {...input} type="checkbox" />
      <span>{label}</span>
    </label>
  );
}

interface ChoiceProps<T extends string> {
  label: string;
  options: readonly { value: T; label: ReactNode }[];
  value: T | null;
  onChoose: (value: T) => void;
}

/** One of a few, all of them seen: radio buttons drawn as one row of targets. */
export function Choice<T extends string>({
  label,
  options,
  value,
  onChoose,
}: ChoiceProps<T>): ReactNode {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend>{label}</legend>
      <div className="choice-row">
        {options.map((option) => (
          <label key={option.value} className="choice-option">
            <input
              type="radio"
              name={name}
              checked={option.value === value}
              onChange={() => onChoose(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
