import { allergy } from "./allergy.ts";
import { applicationTooShort } from "./application-too-short.ts";
import { blockingAgent } from "./blocking-agent.ts";
import type { Check } from "./check.ts";
import { cold } from "./cold.ts";
import { dropAging } from "./drop-aging.ts";
import { dryingTooShort } from "./drying-too-short.ts";
import { earlierExists } from "./earlier-exists.ts";
import { endsBeforeAppointment } from "./ends-before-appointment.ts";
import { endsBeforeBonding } from "./ends-before-bonding.ts";
import { eugenol } from "./eugenol.ts";
import { exposureExtreme } from "./exposure-extreme.ts";
import { exposureTooLow } from "./exposure-too-low.ts";
import { inQuarantine } from "./in-quarantine.ts";
import { labelConflict } from "./label-conflict.ts";
import { lightCheckOverdue } from "./light-check-overdue.ts";
import { lowAfterThis } from "./low-after-this.ts";
import { missing } from "./missing.ts";
import { modulusOrFillerLow } from "./modulus-or-filler-low.ts";
import { notAvailable } from "./not-available.ts";
import { pastInUseLife } from "./past-in-use-life.ts";
import { pastUseBy } from "./past-use-by.ts";
import { sealBenefit } from "./seal-benefit.ts";
import { serialTwice } from "./serial-twice.ts";
import { shortDated } from "./short-dated.ts";
import { singleUseReused } from "./single-use-reused.ts";
import { storageExcursion } from "./storage-excursion.ts";
import { strategyConflict } from "./strategy-conflict.ts";
import { systemSplit } from "./system-split.ts";
import { thicknessRange } from "./thickness-range.ts";
import { unconfirmed } from "./unconfirmed.ts";
import { unknownProduct } from "./unknown-product.ts";
import { withdrawn } from "./withdrawn.ts";
import { wrongKind } from "./wrong-kind.ts";
import { wrongSolvent } from "./wrong-solvent.ts";

/** Every check there is, each in the file named as its code; the order has no meaning. */
export const allChecks: readonly Check[] = [
  pastUseBy,
  pastInUseLife,
  endsBeforeAppointment,
  shortDated,
  withdrawn,
  inQuarantine,
  notAvailable,
  labelConflict,
  wrongKind,
  missing,
  unknownProduct,
  unconfirmed,
  wrongSolvent,
  dryingTooShort,
  applicationTooShort,
  singleUseReused,
  systemSplit,
  strategyConflict,
  eugenol,
  allergy,
  endsBeforeBonding,
  serialTwice,
  exposureTooLow,
  exposureExtreme,
  lightCheckOverdue,
  thicknessRange,
  modulusOrFillerLow,
  storageExcursion,
  cold,
  dropAging,
  sealBenefit,
  blockingAgent,
  lowAfterThis,
  earlierExists,
];
