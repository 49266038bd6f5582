import type { ProvisionalKind, ToothMode } from "#domain";
import type { BodyOf } from "#contracts/operations";
import type { Tray } from "./columns.ts";
import { modesOf, type Technique, type Template } from "./visit-plan.ts";

/** A template as it is filled in. */
export interface TemplateDraft {
  name: string;
  techniqueId: string;
  locationId: string;
  mode: ToothMode | null;
  provisional: ProvisionalKind;
  undercut: boolean;
  /** By step key, in the order of preference; kept also of steps of another technique. */
  products: Readonly<Record<string, readonly string[]>>;
}

export const emptyDraft: TemplateDraft = {
  name: "",
  techniqueId: "",
  locationId: "",
  mode: null,
  provisional: "none",
  undercut: false,
  products: {},
};

export function draftOf(template: Template): TemplateDraft {
  const { name, technique, location, mode, provisional, undercut, products } = template;
  return {
    ...{ name, mode, provisional, undercut },
    techniqueId: technique?.id ?? "",
    locationId: location.id,
    products: Object.fromEntries(
      products.map((step) => [step.stepKey, step.products.map(({ id }) => id)]),
    ),
  };
}

/** A tray as it is set: its first tooth stands for those to come. */
export function draftOfTray(tray: Tray, techniques: readonly Technique[]): TemplateDraft {
  const inUse = techniques.find(({ key }) => key === tray.technique.key);
  const [tooth] = tray.teeth;
  const products: Record<string, string[]> = {};
  for (const { stepKeys, container } of tray.items) {
    if (container === null) continue;
    for (const key of stepKeys) {
      products[key] = [...new Set([...(products[key] ?? []), container.product.id])];
    }
  }
  return {
    ...emptyDraft,
    techniqueId: inUse?.id ?? "",
    locationId: tray.location.id,
    mode: tooth?.mode ?? null,
    provisional: tooth?.provisional ?? "none",
    undercut: tooth?.undercut ?? false,
    products,
  };
}

/** The products of a step with one put last, or taken out where it is there. */
export const toggleProduct = (
  { products }: TemplateDraft,
  stepKey: string,
  productId: string,
): TemplateDraft["products"] => {
  const before = products[stepKey] ?? [];
  const next = before.includes(productId)
    ? before.filter((id) => id !== productId)
    : [...before, productId];
  return { ...products, [stepKey]: next };
};

/** What is sent: only of steps that the technique has, and a mode only where it asks for one. */
export function bodyOfDraft(
  { products, mode, name, ...draft }: TemplateDraft,
  technique: Technique | undefined,
): BodyOf<"addTemplate"> {
  const steps = technique?.steps ?? [];
  return {
    ...draft,
    name: name.trim(),
    mode: modesOf(technique).length === 0 ? null : mode,
    products: steps.flatMap(({ key: stepKey }) => {
      const productIds = [...(products[stepKey] ?? [])];
      return productIds.length === 0 ? [] : [{ stepKey, productIds }];
    }),
  };
}
