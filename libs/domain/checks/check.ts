import type { CheckContext, CheckedItem } from "../check-context.ts";
import type { Finding, FindingCode, TechniqueStep } from "../facts.ts";
import { findInstead, nameInstead } from "../suggest.ts";
import type { FindingLevel } from "../vocabulary.ts";

/**
 * A finding before `checkTray` puts the code of its check on it, and the check's usual level unless
 * the finding says its own.
 */
export type FindingDraft = Omit<Finding, "code" | "level"> & { level?: FindingLevel };

/** One rule of the check before priming. */
export interface Check {
  code: FindingCode;
  /** The usual level. A practice may raise a caution to a stop; no level can be lowered. */
  level: FindingLevel;
  /** A stop that no practice setting may weaken. */
  fixed: boolean;
  /** What the rule finds, in any order; pure. */
  run: (context: CheckContext) => readonly FindingDraft[];
}

/** The subject of a finding about an item, at one of its steps (its first, unless told). */
export function aboutItem(
  item: CheckedItem,
  step: TechniqueStep | null = item.steps[0] ?? null,
): Finding["subject"] {
  return {
    type: item.container === null ? "product" : "container",
    itemId: item.facts.id,
    containerId: item.container?.id ?? null,
    stepKey: step?.key ?? null,
    name: item.name,
  };
}

/** What `find` says about each item of the tray; `null` is nothing. */
export function checkItems(
  context: CheckContext,
  find: (item: CheckedItem) => FindingDraft | null,
): readonly FindingDraft[] {
  const found: FindingDraft[] = [];
  for (const item of context.items) {
    const draft = find(item);
    if (draft !== null) found.push(draft);
  }
  return found;
}

/**
 * What `find` says about each item at each step that it serves; an item of a kind that the step
 * does not accept is passed over, since `wrong-kind` speaks of it.
 */
export function checkItemsAtSteps(
  context: CheckContext,
  find: (at: {
    item: CheckedItem;
    product: NonNullable<CheckedItem["product"]>;
    step: TechniqueStep;
  }) => FindingDraft | null,
): readonly FindingDraft[] {
  const found: FindingDraft[] = [];
  for (const item of context.items) {
    const { product } = item;
    if (product === null) continue;
    for (const step of item.steps) {
      const draft = step.accepts.includes(product.kind) ? find({ item, product, step }) : null;
      if (draft !== null) found.push(draft);
    }
  }
  return found;
}

/** The subject of a finding about the light, at the first step that cures. */
export function aboutLight(light: { name: string }, step: TechniqueStep): Finding["subject"] {
  const { name } = light;
  return { type: "light", itemId: null, containerId: null, stepKey: step.key, name };
}

/** The subject of a finding about a step. */
export function aboutStep(step: TechniqueStep): Finding["subject"] {
  return { type: "step", itemId: null, containerId: null, stepKey: step.key, name: step.name };
}

/**
 * The remedy of taking another container: names the one to take where the shelf has one, and is
 * `get-another` where it has none.
 */
export function takeInstead(context: CheckContext, item: CheckedItem): Finding["remedy"] {
  const candidate = findInstead(context, item);
  return {
    code: candidate === null ? "get-another" : "take-instead",
    numbers: nameInstead(candidate),
  };
}
