/** What the check asks of a product, as one statement reads it. */
import type { Content, ProductFacts, ProductKind, Solvent, Strategy } from "#domain";

export interface ProductFactsRow {
  product_id: string;
  product_name: string;
  product_kind: ProductKind;
  solvents: Solvent[] | null;
  strategy: Strategy | null;
  system_id: string | null;
  system_name: string | null;
  contents: Content[];
  confirmed: boolean;
  in_use_count: number | null;
  in_use_unit: "day" | "month" | null;
  application_seconds: number | null;
  air_dry_seconds: number | null;
  cure_seconds: number | null;
  single_use: boolean;
  radiant_exposure_j_cm2: number | null;
  warm_up_minutes: number | null;
  drop_life_seconds: number | null;
  filler_percent: number | null;
  modulus_gpa: number | null;
  excursion_level: "caution" | "stop";
}

export const productColumns = `p.solvents, p.strategy, p.system_id, bs.name as system_name,
  p.contents,
  coalesce(p.confirmed_version = p.version, false) as confirmed, p.application_seconds,
  p.air_dry_seconds, p.cure_seconds, p.single_use, p.radiant_exposure_j_cm2, p.warm_up_minutes,
  p.drop_life_seconds, p.filler_percent, p.modulus_gpa, p.excursion_level`;
export const ownProduct = `p.id as product_id, p.name as product_name, p.kind as product_kind,
  p.in_use_count, p.in_use_unit`;

export function productFacts(row: ProductFactsRow): ProductFacts {
  const { in_use_count: count, in_use_unit: unit } = row;
  return {
    id: row.product_id,
    name: row.product_name,
    kind: row.product_kind,
    solvents: row.solvents,
    strategy: row.strategy,
    system: row.system_id === null ? null : { id: row.system_id, name: row.system_name ?? "" },
    contents: row.contents,
    confirmed: row.confirmed,
    inUseLife: count !== null && unit !== null ? { count, unit } : null,
    applicationSeconds: row.application_seconds,
    airDrySeconds: row.air_dry_seconds,
    cureSeconds: row.cure_seconds,
    singleUse: row.single_use,
    radiantExposureJCm2: row.radiant_exposure_j_cm2,
    warmUpMinutes: row.warm_up_minutes,
    dropLifeSeconds: row.drop_life_seconds,
    fillerPercent: row.filler_percent,
    modulusGpa: row.modulus_gpa,
    excursionLevel: row.excursion_level,
  };
}
