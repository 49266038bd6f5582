/**
 * Every reason for which a label is refused. The list is closed: screens, the command line and
 * stored scans rely on it.
 */
export const labelErrorKinds = [
  "empty_input",
  "unrecognized_format",
  "unsupported_symbology",
  "unsupported_scheme",
  "symbology_case_mismatch",
  "symbology_mismatch",
  "unknown_ai",
  "empty_value",
  "value_too_short",
  "value_too_long",
  "invalid_character",
  "invalid_check_digit",
  "invalid_date",
  "invalid_time",
  "doubled_separator",
  "missing_companion_ai",
  "exclusive_ai_pair",
  "conflicting_duplicate_ai",
  "not_a_digital_link",
  "dl_key_qualifier_order",
  "dl_attribute_not_allowed",
  "dl_duplicate_ai",
  "invalid_check_character",
  "link_mismatch",
  "invalid_structure",
  "unknown_data_identifier",
  "conflicting_duplicate",
] as const;

/** One reason for which a label is refused. */
export type LabelErrorKind = (typeof labelErrorKinds)[number];

/**
 * What is odd about a label that was read all the same. `missing_companion_ai`: another symbol of
 * the same label must follow. `separator_substituted`: the scanner sent a text in place of the
 * group separator. `leading_separator`: a separator stood before the first element.
 * `separator_suspected`: a value contains what may be a separator written out or may begin a
 * further element whose separator was lost. `brackets_in_value`: a bracketed number inside a
 * printed value was taken as data. `non_alphanumeric_lot` and `non_alphanumeric_serial`: an HIBC
 * lot or serial contains a hyphen. `dates_disagree`: two elements give different dates for one
 * thing, and the earlier one was taken.
 */
export const labelWarningKinds = [
  "missing_companion_ai",
  "separator_substituted",
  "leading_separator",
  "separator_suspected",
  "brackets_in_value",
  "non_alphanumeric_lot",
  "non_alphanumeric_serial",
  "dates_disagree",
] as const;

/** One oddity of a label that was read all the same. */
export type LabelWarningKind = (typeof labelWarningKinds)[number];

/**
 * A closer description where the kind alone would leave a person guessing: the scanner set-up that
 * causes such input, the rule of the standard that the value breaks, or scans that do not belong
 * to one label.
 */
export type LabelErrorDetail =
  | "keyboard_layout"
  | "caps_lock"
  | "code39_check_stripped"
  | "code39_full_ascii"
  | "mixed_schemes"
  | "country"
  | "company_prefix"
  | "piece_of_total"
  | "sequence"
  | "coordinate"
  | "leading_zero"
  | "zero"
  | "non_digit_required"
  | "choice"
  | "percent_encoding"
  | "padding";

/**
 * Why and where a label was refused. `at` and `length` are a span of the raw text in UTF-16 units,
 * counted from 0, so that a screen can mark it; a length of 0 says that something is missing
 * there. `ai` names the GS1 application identifier concerned. `part` is the index of the scan when
 * several scans of one label were given.
 */
export type LabelError = {
  kind: LabelErrorKind;
  at: number;
  length: number;
  ai?: string;
  part?: number;
  detail?: LabelErrorDetail;
};

/** What is odd about a label that was read, with the same span as an error. */
export type LabelWarning = {
  kind: LabelWarningKind;
  at: number;
  length: number;
  ai?: string;
  part?: number;
};

/** One GS1 element: an application identifier and its value, exactly as encoded. */
export type LabelElement = { ai: string; value: string };

/**
 * A date of a label as the label gives it. `date` is YYYY-MM-DD. Precision `month` says that the
 * label gave no day and that `date` is the last day of the month. `time` is HH, HH:MM or HH:MM:SS:
 * local civil time on a GS1 label, coordinated universal time and then ending in Z on a HIBC label.
 */
export type LabelDate = {
  date: string;
  precision: "month" | "day" | "hour" | "minute" | "second";
  time?: string;
};

/** A trade or logistic measure: the value with its decimals applied, and its unit. */
export type LabelMeasure = { ai: string; decimal: string; unit: string };

/** What a label says, under the same names whatever standard it follows. */
export type LabelFields = {
  /** Global trade item number, always 14 digits. */
  gtin?: string;
  /** GTIN of the items inside a logistic unit, 14 digits. */
  content_gtin?: string;
  /** Serial shipping container code, 18 digits. */
  sscc?: string;
  lot?: string;
  serial?: string;
  expiry?: LabelDate;
  production?: LabelDate;
  packaging?: LabelDate;
  best_before?: LabelDate;
  sell_by?: LabelDate;
  /** Number of pieces in a variable-count item, GS1 (30), or the HIBC quantity. */
  quantity?: number;
  /** Number of trade items in a logistic unit, GS1 (37). */
  count?: number;
  measures?: LabelMeasure[];
  /** Which HIBC symbols were read. */
  structure?: "primary" | "secondary" | "concatenated" | "pair";
  /** HIBC labeler identification code, four characters. */
  lic?: string;
  /** HIBC product or catalogue number. */
  pcn?: string;
  /** HIBC unit of measure: 0 unit of use, 1 to 8 packaging level, 9 variable quantity. */
  unit_of_measure?: number;
  check_character?: string;
  link_character?: string;
  /** Pharmacy product number of the IFA coding system. */
  ppn?: string;
};

/** The standards a label can follow. */
export type LabelScheme = "gs1" | "gs1-digital-link" | "gtin" | "hibc" | "ifa-ppn";

/**
 * How to read. `today` is the date YYYY-MM-DD that resolves two-digit years; while it is not of
 * that form, every two-digit year is refused with `invalid_date`. `associations`: `enforce`
 * refuses a finished label whose elements lack a companion, `defer` (the default) only warns,
 * since another symbol may follow. `gsTokens`: texts that this scanner sends in place of the group
 * separator, beyond those understood by default. `permitZeroSuppressedGtin` accepts GTINs of 8, 12
 * or 13 digits in a GS1 Digital Link.
 */
export type ReadOptions = {
  today: string;
  associations?: "enforce" | "defer";
  gsTokens?: readonly string[];
  permitZeroSuppressedGtin?: boolean;
};

/** A label that was read. `elements` is empty unless the scheme is one of GS1's with elements. */
export type LabelRead = {
  ok: true;
  scheme: LabelScheme;
  /** Symbology identifier of the first scan that sent one, such as `]d2`. */
  symbology?: string;
  elements: LabelElement[];
  fields: LabelFields;
  warnings: LabelWarning[];
  raw: string | readonly string[];
};

/** A label that was refused, with the first reason found. */
export type LabelRefused = { ok: false; error: LabelError; raw: string | readonly string[] };

/** The answer to one label: read or refused, and in both cases the raw input untouched. */
export type LabelResult = LabelRead | LabelRefused;
