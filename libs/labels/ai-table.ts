/**
 * One line of the table: the AI or range of AIs; its format; `?` when a GS1 Digital Link may carry
 * it as a query attribute; the AIs it needs on the same item; the AIs it must not meet there.
 *
 * Format: components, each a letter (N digits, X character set 82, Y set 39, Z base64), a length or
 * a range of lengths, `?` when the component may be missing, and the names of its content rules
 * after colons. Needs: alternatives separated by commas, `+` joins what must come together.
 * In both lists n stands for any digit.
 */
export type AiLine = readonly [
  ais: string,
  format: string,
  link: "?" | "-",
  needs?: string,
  excludes?: string,
];

const ITEM = "01,02,03,8006,8026";
const MADE_ITEM = "01,03,8006";
const SHIPMENT = "00";
const PATIENT_OR_STAFF = "8017,8018";
const MEASURED = "30,31nn,32nn,35nn,36nn";

/**
 * Every application identifier but the measures of 31nn to 36nn. Facts: GS1 Barcode Syntax
 * Dictionary, state of 27 July 2026. Lists that are amended every year (currencies, package types)
 * and the inner structure of coupons are not checked, so that a label is not refused over them.
 */
export const AI_LINES: readonly AiLine[] = [
  // Logistic units and trade items
  ["00", "N18:check", "?"],
  ["01", "N14:check", "?", "", "255,37"],
  ["02", "N14:check", "?", "37", "01,03"],
  ["03", "N14:check", "-", "", "01,02,37,235"],
  // Lot, dates, variant, serial
  ["10", "X1-20", "?", ITEM],
  ["11", "N6:dateOrMonth", "?", ITEM],
  ["12", "N6:dateOrMonth", "?", "8020"],
  ["13", "N6:dateOrMonth", "?", ITEM],
  ["15", "N6:dateOrMonth", "?", ITEM],
  ["16", "N6:dateOrMonth", "?", ITEM],
  ["17", "N6:dateOrMonth", "?", "01,02,03,255,8006,8026"],
  ["20", "N2", "?", ITEM],
  ["21", "X1-20", "-", MADE_ITEM, "235"],
  ["22", "X1-20", "-", "01"],
  ["235", "X1-28", "-", "01"],
  ["240", "X1-30", "?", ITEM],
  ["241", "X1-30", "?", ITEM],
  ["242", "N1-6", "?", "01,02,8006,8026"],
  ["243", "X1-20", "?", "01,03"],
  ["250", "X1-30", "?", "01+21,03+21,8006+21"],
  ["251", "X1-30", "?", MADE_ITEM],
  // Documents, locations, coupons, counts
  ["253", "N13:check X1-17?", "?"],
  ["254", "X1-20", "-", "414"],
  ["255", "N13:check N1-12?", "?", "", "01,02,415,8006,8020,8026"],
  ["30", "N1-8", "?", "01,02"],
  ["37", "N1-8", "?", "00+02,00+8026"],
  // Amounts and prices
  ["3900-3909", "N1-15", "?", "255,8020", "390n,391n,394n,8111"],
  ["3910-3919", "N3 N1-15", "?", "8020", "391n"],
  ["3920-3929", "N1-15", "?", "01+30,01+31nn,01+32nn,01+35nn,01+36nn", "392n,393n"],
  ["3930-3939", "N3 N1-15", "?", MEASURED, "393n"],
  ["3940-3943", "N4", "?", "255", "394n,8111"],
  ["3950-3955", "N6", "?", MEASURED, "392n,393n,395n,8005"],
  // Orders, consignments, shipments, locations
  ["400", "X1-30", "?"],
  ["401", "X1-30:companyPrefix", "?"],
  ["402", "N17:check", "?"],
  ["403", "X1-30", "?", SHIPMENT],
  ["410-413", "N13:check", "?"],
  ["414", "N13:check", "?"],
  ["415", "N13:check", "?", "8020"],
  ["416-417", "N13:check", "?"],
  ["420", "X1-20", "?", "", "421"],
  ["421", "N3:country X1-9", "?", "", "4307"],
  // Countries of origin and process
  ["422", "N3:country", "?", ITEM, "426"],
  ["423", "N3:country N3?:country N3?:country N3?:country N3?:country", "?", "01,02,03", "426"],
  ["424", "N3:country", "?", "01,02,03", "426"],
  ["425", "N3:country N3?:country N3?:country N3?:country N3?:country", "?", "01,02,03", "426"],
  ["426", "N3:country", "?", "01,02,03"],
  ["427", "X1-3", "?", "01+422,02+422,03+422"],
  // Ship to and return to
  ["4300-4301", "X1-35:percentEncoded", "?", SHIPMENT],
  ["4302", "X1-70:percentEncoded", "?", SHIPMENT],
  ["4303", "X1-70:percentEncoded", "?", "4302"],
  ["4304-4306", "X1-70:percentEncoded", "?", SHIPMENT],
  ["4307", "X2:countryLetters", "?", SHIPMENT],
  ["4308", "X1-30", "?", SHIPMENT],
  ["4309", "N10:latitude N10:longitude", "?", SHIPMENT],
  ["4310-4311", "X1-35:percentEncoded", "?", SHIPMENT],
  ["4312", "X1-70:percentEncoded", "?", SHIPMENT],
  ["4313", "X1-70:percentEncoded", "?", "4312"],
  ["4314-4316", "X1-70:percentEncoded", "?", SHIPMENT],
  ["4317", "X2:countryLetters", "?", SHIPMENT],
  ["4318", "X1-20", "?", SHIPMENT],
  ["4319", "X1-30", "?", SHIPMENT],
  ["4320", "X1-35:percentEncoded", "?", SHIPMENT],
  ["4321-4323", "N1:yesNo", "?", SHIPMENT],
  ["4324-4325", "N6:dateOrMonth N4:time", "?", SHIPMENT],
  ["4326", "N6:date", "?", SHIPMENT],
  // Transport temperatures
  ["4330", "N6 X1?:hyphen", "?", SHIPMENT, "4331"],
  ["4331", "N6 X1?:hyphen", "?", SHIPMENT, "4330"],
  ["4332", "N6 X1?:hyphen", "?", SHIPMENT, "4333"],
  ["4333", "N6 X1?:hyphen", "?", SHIPMENT, "4332"],
  // Stock numbers, food, times
  ["7001", "N13", "?", "01,02,8006,8026"],
  ["7002", "X1-30", "?", "01,02"],
  ["7003", "N6:date N4:time", "?", "01,02,03"],
  ["7004", "N1-4", "?", "01+10,03+10"],
  ["7005", "X1-12", "?", "01,02"],
  ["7006", "N6:date", "?", "01,02"],
  ["7007", "N6:date N6?:date", "?", "01,02"],
  ["7008", "X1-3", "?", "01,02"],
  ["7009", "X1-10", "?", "01,02"],
  ["7010", "X1-2", "?", "01,02,03"],
  ["7011", "N6:date N4?:time", "?", "01,02,03"],
  // Refurbishment, assembly, processors
  ["7020", "X1-20", "?", "01+416,03+416,8006+416"],
  ["7021", "X1-20", "?", MADE_ITEM],
  ["7022", "X1-20", "?", "01+7021,03+7021,8006+7021"],
  ["7023", "X1-30:companyPrefix", "?"],
  ["7030-7039", "N3:countryOr999 X1-27", "?", "01,02"],
  ["7040", "N1 X1 X1 X1:importerIndex", "-"],
  ["7041", "X1-4", "-", SHIPMENT],
  // National reimbursement numbers, certificates, protocol
  ["710-717", "X1-20", "?", "01"],
  ["7230-7239", "X2 X1-28", "?", "01,8004"],
  ["7240", "X1-20", "?", "01,8006", "03"],
  // People in care
  ["7241", "N2:mediaType", "?", PATIENT_OR_STAFF],
  ["7242", "X1-25", "?", PATIENT_OR_STAFF],
  ["7250", "N8:longDate", "?", "8018", "7251"],
  ["7251", "N8:longDate N4:time", "?", "8018", "7250"],
  ["7252", "N1:sex", "?", "8018"],
  ["7253-7254", "X1-40:percentEncoded", "?", PATIENT_OR_STAFF, "7256,7259"],
  ["7255", "X1-10", "?", PATIENT_OR_STAFF, "7256,7259"],
  ["7256", "X1-90:percentEncoded", "?", PATIENT_OR_STAFF],
  ["7257", "X1-70:percentEncoded", "?", "8018"],
  ["7258", "X3:birthSequence", "?", "8018+7259"],
  ["7259", "X1-40:percentEncoded", "?", "8018", "7256"],
  // Dimensions, assets, pieces, bank account
  ["8001", "N4:nonZero N5:nonZero N3:nonZero N1:winding N1", "?", "01"],
  ["8002", "X1-20", "?"],
  ["8003", "N1:zero N13:check X1-16?", "?"],
  ["8004", "X1-30:companyPrefix", "?"],
  ["8005", "N6", "?", "01,02"],
  ["8006", "N14:check N4:pieceOfTotal", "?", "", "01,03,37"],
  ["8007", "X1-34:iban", "?", "415"],
  ["8008", "N6:date N2:hour N2?:minute N2?:second", "?", "01,02,03"],
  ["8009", "X1-50", "?", "00,01,03"],
  ["8010", "Y1-30:companyPrefix", "?"],
  ["8011", "N1-12:noLeadingZero", "-", "8010"],
  ["8012", "X1-20", "?", MADE_ITEM],
  // Device models (Basic UDI-DI, master UDI-DI), service relations, payment slips
  ["8013", "X1-25:checkPair:companyPrefix", "?"],
  ["8014", "X1-25:checkPair:companyPrefix:someNonDigit", "-", "01"],
  ["8017", "N18:check", "?", "", "8018"],
  ["8018", "N18:check", "?", "", "8017"],
  ["8019", "N1-10", "-", PATIENT_OR_STAFF],
  ["8020", "X1-25", "-", "415"],
  ["8026", "N14:check N4:pieceOfTotal", "?", "37", "02,03,8006"],
  ["8030", "Z1-90:padding", "?", "00,01+21,03+21,253,255,8003,8004,8006+21,8010+8011,8017,8018"],
  // Telecommunication devices, coupons, web address, internal use
  ["8040", "N15", "-", "01+21"],
  ["8041", "N15", "-", "01+21+8040"],
  ["8042", "N32", "-", "01+21+8040"],
  ["8043", "N18 N1-2?", "-", "01+21+8040"],
  ["8110", "X1-70", "?"],
  ["8111", "N4", "?", "255"],
  ["8112", "X1-70", "?"],
  ["8200", "X1-70", "-", "01"],
  ["90", "X1-30", "?"],
  ["91-99", "X1-90", "?"],
];

/** A measure: the first three digits of its AIs, its unit, what it needs. */
export type MeasureLine = readonly [family: string, unit: string, needs: string];

const NET = "01,02";
const GROSS = "00,01";

/**
 * The measures: six digits, the AI's fourth digit (0 to 5) being the number of decimals; a family
 * may appear once. Facts: GS1 Barcode Syntax Dictionary, state of 27 July 2026.
 */
export const MEASURE_LINES: readonly MeasureLine[] = [
  ["310", "kg", NET],
  ["311", "m", NET],
  ["312", "m", NET],
  ["313", "m", NET],
  ["314", "m²", NET],
  ["315", "l", NET],
  ["316", "m³", NET],
  ["320", "lb", NET],
  ["321", "in", NET],
  ["322", "ft", NET],
  ["323", "yd", NET],
  ["324", "in", NET],
  ["325", "ft", NET],
  ["326", "yd", NET],
  ["327", "in", NET],
  ["328", "ft", NET],
  ["329", "yd", NET],
  ["330", "kg", GROSS],
  ["331", "m", GROSS],
  ["332", "m", GROSS],
  ["333", "m", GROSS],
  ["334", "m²", GROSS],
  ["335", "l", GROSS],
  ["336", "m³", GROSS],
  ["337", "kg/m²", "01"],
  ["340", "lb", GROSS],
  ["341", "in", GROSS],
  ["342", "ft", GROSS],
  ["343", "yd", GROSS],
  ["344", "in", GROSS],
  ["345", "ft", GROSS],
  ["346", "yd", GROSS],
  ["347", "in", GROSS],
  ["348", "ft", GROSS],
  ["349", "yd", GROSS],
  ["350", "in²", NET],
  ["351", "ft²", NET],
  ["352", "yd²", NET],
  ["353", "in²", GROSS],
  ["354", "ft²", GROSS],
  ["355", "yd²", GROSS],
  ["356", "tr oz", NET],
  ["357", "oz", NET],
  ["360", "qt", NET],
  ["361", "gal", NET],
  ["362", "qt", GROSS],
  ["363", "gal", GROSS],
  ["364", "in³", NET],
  ["365", "ft³", NET],
  ["366", "yd³", NET],
  ["367", "in³", GROSS],
  ["368", "ft³", GROSS],
  ["369", "yd³", GROSS],
];

/**
 * Total length, identifier included, of the elements that end without a separator, by the first two
 * digits of the AI. The list is frozen. Every other element ends at a separator or at the end of
 * the data, even when its own length is fixed. Source: GS1 General Specifications Figure 7.8.5-2.
 */
export const PREDEFINED_LENGTHS: ReadonlyMap<string, number> = new Map([
  ["00", 20],
  ["01", 16],
  ["02", 16],
  ["03", 16],
  ["04", 18],
  ["11", 8],
  ["12", 8],
  ["13", 8],
  ["14", 8],
  ["15", 8],
  ["16", 8],
  ["17", 8],
  ["18", 8],
  ["19", 8],
  ["20", 4],
  ["31", 10],
  ["32", 10],
  ["33", 10],
  ["34", 10],
  ["35", 10],
  ["36", 10],
  ["41", 16],
]);
