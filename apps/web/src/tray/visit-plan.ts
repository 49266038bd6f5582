import {
  instantOfClock,
  readSurfaces,
  type ProvisionalKind,
  type RestorationKind,
  type ToothMode,
} from "#domain";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { readTooth, showTooth } from "../texts/tooth-notation.ts";

export type Technique = AnswerOf<"getTray">["technique"];
export type VisitTooth = AnswerOf<"getTray">["teeth"][number];

/** What is planned of a tooth besides which one it is. */
export interface ToothPlan {
  mode: ToothMode | null;
  provisional: ProvisionalKind;
  undercut: boolean;
  surfaces: string;
  restoration: RestorationKind | null;
}
export const usualTooth: ToothPlan = {
  mode: null,
  provisional: "none",
  undercut: false,
  surfaces: "",
  restoration: null,
};

/** A visit as it is filled in. */
export interface VisitPlan {
  chartNumber: string;
  /** As typed: teeth apart by spaces or commas. */
  teethText: string;
  /** What is planned of a tooth of which nothing else is told. */
  usual: ToothPlan;
  /** By tooth; kept where a tooth is taken out and comes back. */
  details: Readonly<Record<string, ToothPlan>>;
  techniqueId: string;
  locationId: string;
  day: string;
  time: string;
  /** The planned bonding day, or empty. */
  bondingOn: string;
  /** The template that it was begun with, or empty. */
  templateId: string;
}
export type Template = AnswerOf<"listTemplates">["templates"][number];

/** A plan begun with a template; what was told of teeth before stays. */
export function applyTemplate(plan: VisitPlan, template: Template | undefined): VisitPlan {
  if (template === undefined) return { ...plan, templateId: "", usual: usualTooth };
  const { id, technique, location, mode, provisional, undercut } = template;
  return {
    ...plan,
    templateId: id,
    techniqueId: technique?.id ?? plan.techniqueId,
    locationId: location.id,
    usual: { ...usualTooth, mode, provisional, undercut },
  };
}

/** The teeth that a text names in the practice's notation, each once; what is none stays so. */
export const listTyped = (text: string): readonly string[] => [
  ...new Set(
    text
      .split(/[\s,;]+/)
      .filter((part) => part !== "")
      .map((part) => readTooth(part) ?? part),
  ),
];

/** Teeth as they are typed in the practice's notation. */
export const typeTeeth = (teeth: readonly string[]): string => teeth.map(showTooth).join(" ");

/** The text with a tooth put in, or taken out where it stands there. */
export function toggleTooth(text: string, tooth: string): string {
  const typed = listTyped(text);
  return typeTeeth(
    typed.includes(tooth) ? typed.filter((one) => one !== tooth) : [...typed, tooth],
  );
}

/** The modes between which a technique's steps differ; none where no step asks for one. */
export function modesOf(technique: Technique | undefined): readonly ToothMode[] {
  const asked = technique?.steps.flatMap(({ when }) => when?.modes ?? []) ?? [];
  return asked.length === 0 ? [] : ["self-etch", "selective-enamel-etch", "etch-and-rinse"];
}

/** Whether a step of the technique depends on it. */
export const asksFor = (technique: Technique | undefined, what: "provisional" | "undercut") =>
  technique?.steps.some(({ when }) => when !== null && when[what] !== null) === true;

export interface VisitFaults {
  teeth: "none" | "unknown" | null;
  surfaces: Readonly<Record<string, boolean>>;
  time: boolean;
}

/** The teeth of a plan with what is planned of each. */
export function listTeeth(plan: VisitPlan, technique: Technique | undefined): VisitTooth[] {
  const [usualMode = null] = modesOf(technique);
  return listTyped(plan.teethText).map((tooth) => {
    const told = plan.details[tooth] ?? plan.usual;
    return { ...told, tooth, mode: usualMode === null ? null : (told.mode ?? usualMode) };
  });
}

/** Plans all teeth as the first one; each keeps its own surfaces. */
export function planLikewise(
  { details }: VisitPlan,
  [first, ...others]: readonly VisitTooth[],
): VisitPlan["details"] {
  if (first === undefined) return details;
  const { tooth: _own, surfaces: _its, ...same } = first;
  const likewise = others.map(({ tooth, surfaces }) => [tooth, { ...same, surfaces }]);
  return { ...details, ...Object.fromEntries(likewise) };
}

/** A text that is a tooth in another notation only is none here. */
const areTeeth = (text: string): boolean =>
  text.split(/[\s,;]+/).every((part) => part === "" || readTooth(part) !== null);

export function findFaults(plan: VisitPlan, timeZone: string): VisitFaults {
  const typed = listTyped(plan.teethText);
  const surfaces: Record<string, boolean> = {};
  for (const tooth of typed) {
    const text = plan.details[tooth]?.surfaces ?? "";
    surfaces[tooth] = text !== "" && !readSurfaces(tooth, text).ok;
  }
  return {
    teeth: typed.length === 0 ? "none" : areTeeth(plan.teethText) ? null : "unknown",
    surfaces,
    time: instantOfClock(plan.day, plan.time, timeZone) === null,
  };
}

/** The body that plans or changes the visit; `null` while something is wrong. */
export function readVisit(
  plan: VisitPlan,
  technique: Technique | undefined,
  timeZone: string,
): BodyOf<"planTray"> | null {
  const faults = findFaults(plan, timeZone);
  const appointmentAt = instantOfClock(plan.day, plan.time, timeZone);
  const isWrong = faults.teeth !== null || Object.values(faults.surfaces).some(Boolean);
  if (isWrong || appointmentAt === null) return null;
  const { chartNumber, techniqueId, locationId, bondingOn, templateId } = plan;
  return {
    chartNumber,
    teeth: listTeeth(plan, technique),
    techniqueId,
    locationId,
    appointmentAt,
    bondingOn: bondingOn === "" ? null : bondingOn,
    templateId: templateId === "" ? null : templateId,
  };
}
