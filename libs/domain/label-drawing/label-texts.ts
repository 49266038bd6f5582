/** A word and its value, such as `Use by` and `2027-03`; empty is a line to write on. */
export interface WordAndValue {
  word: string;
  value: string;
}

/** What one label says. */
export interface LabelTexts {
  /** The modules of the symbol, without its quiet zone. */
  symbol: readonly (readonly boolean[])[];
  /** As people read it, `CK7-QW4X`. */
  code: string;
  title: string;
  /** Never shortened: it shrinks, wraps, or the label is refused. */
  lot: WordAndValue | null;
  useBy: WordAndValue | null;
  /** Opened on, use until: filled or to be filled by hand. */
  dates: readonly WordAndValue[];
  /** Left out first where the label is small. */
  line: string;
}
