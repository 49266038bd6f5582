/** Pieces that several contracts share. */
import { z } from "zod";

export const Id = z
  .uuid()
  .meta({ description: "UUID version 7, made by whoever created the thing" });
const ofOurTimes = /^(19|20|21)/;
export const CivilDate = z.iso
  .date()
  .regex(ofOurTimes, "a year from 1900 to 2199")
  .meta({ description: "YYYY-MM-DD, a day in the practice's zone" });
export const Instant = z.iso
  .datetime()
  .regex(ofOurTimes, "a year from 1900 to 2199")
  .meta({ description: "ISO 8601 with Z" });
export const Name = z.string().trim().min(1).max(200);
export const ShortText = z.string().max(2000);
/** What a scanner sent: kept byte for byte, so never trimmed. U+0000 cannot be stored. */
export const Barcode = z
  .string()
  .min(1)
  .max(4096)
  .refine((text) => !text.includes("\u0000"), "must not contain U+0000");
export const Barcodes = z.array(Barcode).min(1).max(4);
const noNull = (text: string): boolean => !text.includes("\u0000");
/** Characters that a scanner sends: any but U+0000, which cannot be stored. */
export const scannerText = (max: number) =>
  z.string().max(max).refine(noNull, "must not contain U+0000");
/** What this scanner sends for the group separator, beyond what is understood of any. */
export const GsTokens = z
  .array(scannerText(8).min(1))
  .max(4)
  .meta({ description: "Texts that this scanner sends in place of the group separator" });
export const Page = {
  limit: z.coerce.number().int().min(1).max(500).default(100),
  after: z.string().max(200).optional(),
};
export type Id = z.infer<typeof Id>;

/** A problem as every error answer carries it (RFC 9457). */
export const ProblemBody = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    instance: z.string(),
    errors: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
  })
  .loose()
  .meta({ id: "Problem" });
export type ProblemBody = z.infer<typeof ProblemBody>;
