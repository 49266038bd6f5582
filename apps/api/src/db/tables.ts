/**
 * The reference data that TypeORM reads and inserts. The ledger, trays, records and traces are SQL
 * in their stores; the whole schema stands in `migrations/`.
 */
import { Column, Entity, PrimaryColumn } from "typeorm";
import type { ScannerProfile } from "#labels";
import type { Content, LocationKind, ProductKind, Solvent, Strategy, KeptStep } from "#domain";

@Entity("person")
export class PersonRow {
  @PrimaryColumn("uuid") id!: string;
  @Column("uuid", { name: "organisation_id" }) organisationId!: string;
  @Column("text", { name: "display_name" }) displayName!: string;
  @Column("text", { name: "sign_in_name" }) signInName!: string;
  @Column("text", { name: "password_hash", select: false }) passwordHash!: string;
  @Column("boolean") active!: boolean;
  @Column("timestamptz", { name: "created_at" }) createdAt!: Date;
}

@Entity("membership")
export class MembershipRow {
  @PrimaryColumn("uuid", { name: "practice_id" }) practiceId!: string;
  @PrimaryColumn("uuid", { name: "person_id" }) personId!: string;
  @PrimaryColumn("text") role!: string;
}

@Entity("device")
export class DeviceRow {
  @PrimaryColumn("uuid", { name: "practice_id" }) practiceId!: string;
  @PrimaryColumn("uuid") id!: string;
  @Column("text") name!: string;
  @Column("bytea", { name: "token_hash", select: false }) tokenHash!: Buffer;
  @Column("uuid", { name: "registered_by" }) registeredBy!: string;
  @Column("timestamptz", { name: "registered_at" }) registeredAt!: Date;
  @Column("timestamptz", { name: "revoked_at", nullable: true }) revokedAt!: Date | null;
  @Column("jsonb", { name: "scanner_profile", nullable: true })
  scannerProfile!: ScannerProfile | null;
  @Column("timestamptz", { name: "scanner_set_up_at", nullable: true })
  scannerSetUpAt!: Date | null;
}

@Entity("location")
export class LocationRow {
  @PrimaryColumn("uuid", { name: "practice_id" }) practiceId!: string;
  @PrimaryColumn("uuid") id!: string;
  @Column("text") name!: string;
  @Column("text") kind!: LocationKind;
  @Column({ type: "boolean", insert: false, update: false }) outside!: boolean;
}

@Entity("bonding_system")
export class BondingSystemRow {
  @PrimaryColumn("uuid") id!: string;
  @Column("uuid", { name: "organisation_id" }) organisationId!: string;
  @Column("text") name!: string;
}

@Entity("product")
export class ProductRow {
  @PrimaryColumn("uuid") id!: string;
  @Column("uuid", { name: "organisation_id" }) organisationId!: string;
  @Column("text") name!: string;
  @Column("text") labeler!: string;
  @Column("text") kind!: ProductKind;
  @Column("text", { array: true, nullable: true }) solvents!: Solvent[] | null;
  @Column("text", { nullable: true }) strategy!: Strategy | null;
  @Column("uuid", { name: "system_id", nullable: true }) systemId!: string | null;
  @Column("text", { array: true }) contents!: Content[];
  @Column("integer", { name: "in_use_count", nullable: true }) inUseCount!: number | null;
  @Column("text", { name: "in_use_unit", nullable: true }) inUseUnit!: "day" | "month" | null;
  @Column("integer", { name: "application_seconds", nullable: true })
  applicationSeconds!: number | null;
  @Column("integer", { name: "air_dry_seconds", nullable: true }) airDrySeconds!: number | null;
  @Column("integer", { name: "cure_seconds", nullable: true }) cureSeconds!: number | null;
  @Column("numeric", { name: "radiant_exposure_j_cm2", nullable: true })
  radiantExposureJCm2!: number | null;
  @Column("integer", { name: "warm_up_minutes", nullable: true }) warmUpMinutes!: number | null;
  @Column("integer", { name: "drop_life_seconds", nullable: true })
  dropLifeSeconds!: number | null;
  @Column("numeric", { name: "filler_percent", nullable: true }) fillerPercent!: number | null;
  @Column("numeric", { name: "modulus_gpa", nullable: true }) modulusGpa!: number | null;
  @Column("text", { name: "excursion_level" }) excursionLevel!: "caution" | "stop";
  @Column("numeric", { name: "storage_min_c", nullable: true }) storageMinC!: number | null;
  @Column("numeric", { name: "storage_max_c", nullable: true }) storageMaxC!: number | null;
  @Column("boolean", { name: "single_use" }) singleUse!: boolean;
  @Column("integer", { name: "uses_per_container", nullable: true })
  usesPerContainer!: number | null;
  @Column("text", { name: "ifu_version" }) ifuVersion!: string;
  @Column("integer") version!: number;
  @Column("integer", { name: "confirmed_version", nullable: true })
  confirmedVersion!: number | null;
  @Column("uuid", { name: "confirmed_by", nullable: true }) confirmedBy!: string | null;
  @Column("timestamptz", { name: "confirmed_at", nullable: true }) confirmedAt!: Date | null;
  @Column("timestamptz", { name: "created_at" }) createdAt!: Date;
}

@Entity("product_identifier")
export class ProductIdentifierRow {
  @PrimaryColumn("uuid", { name: "organisation_id" }) organisationId!: string;
  @PrimaryColumn("text") scheme!: "gs1-gtin" | "hibc" | "ppn";
  @PrimaryColumn("text") value!: string;
  @Column("uuid", { name: "product_id" }) productId!: string;
  @Column("text", { name: "pack_level" }) packLevel!: "unit" | "box" | "case";
  @Column("integer") containers!: number;
}

@Entity("technique")
export class TechniqueRow {
  @PrimaryColumn("uuid") id!: string;
  @Column("uuid", { name: "organisation_id" }) organisationId!: string;
  @Column("text") key!: string;
  @Column("integer") version!: number;
  @Column("text") name!: string;
  @Column("text") visit!: "sealing" | "bonding";
  @Column("jsonb") steps!: KeptStep[];
  @Column("boolean") starter!: boolean;
  @Column("boolean") retired!: boolean;
  @Column("timestamptz", { name: "created_at" }) createdAt!: Date;
  @Column({ type: "timestamptz", name: "confirmed_at", insert: false, nullable: true })
  confirmedAt!: Date | null;
}

@Entity("delivery")
export class DeliveryRow {
  @PrimaryColumn("uuid", { name: "practice_id" }) practiceId!: string;
  @PrimaryColumn("uuid") id!: string;
  @Column("text") supplier!: string;
  @Column("text") note!: string;
  @Column("uuid", { name: "received_by" }) receivedBy!: string;
  @Column("timestamptz", { name: "received_at" }) receivedAt!: Date;
}

export const entities = [
  PersonRow,
  MembershipRow,
  DeviceRow,
  LocationRow,
  BondingSystemRow,
  ProductRow,
  ProductIdentifierRow,
  TechniqueRow,
  DeliveryRow,
];
