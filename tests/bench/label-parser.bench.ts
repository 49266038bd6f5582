import { parseBarcode } from "gs1-barcode-parser-mod";
import { readLabel } from "#labels";

export const name = "label-parser";

const GS = "\u001d";
const TODAY = "2026-06-15";

/** Element strings as a scanner delivers them, of the sizes met on device labels. */
const VALID = [
  "]d20109506000134352",
  "]d201095060001343521726123110ABC123",
  `]d2010952012345678810LOT-77${GS}17270430`,
  `]d20109521234543213112601051729010410B7${GS}21SN0001`,
  "]C101095060001343521727013110X1",
  `]Q3010950600013435210X2${GS}21Y2`,
  `]e0010950600013435210X3${GS}21Y3`,
  `]d2010950600013435210ABC${GS}17261231`,
  "]d2010950600013435217270200",
  "]d2010950600013435217280200",
  `]d2010950600013435270032612311235${GS}10ABC`,
  "]d20109506000134352310300125010ABC",
  `]d20109506000134352300012${GS}10ABC`,
  `]C100106141412345678908020950600013435210L1${GS}3724`,
  `]d20109506000134352240REF-9${GS}241CUST/4${GS}10A`,
  `]d2010950600013435271001234562${GS}10A`,
  "]d2010950600013435210aB/c_1+2%",
  `010950600013435210AB${GS}17261130`,
];

/** Strings that no label may carry: each breaks one rule of the standard. */
const FAULTY = [
  "]d20109506000134353",
  "]C100106141412345678900",
  "]d2010950600013435217260230",
  "]d2010950600013435217261301",
  "]d2010950600013435217260431",
  "]d2010950600013435217270229",
  "]d2010950600013435211261232",
  "]d2010950600013435270032612001200",
  "]d2010950600013435270032612312460",
  "]d20109506000134352231ABC",
  "]d2010950600013435210AAAAAAAAAAAAAAAAAAAAA",
  "]d20109506000134352172612",
  `]d2010950600013435210${GS}17261231`,
  `]d2010950600013435210ABC${GS}${GS}21XYZ`,
  `]d2010950600013435210ABC${GS}10ABD`,
  "]d21726123110ABC",
  "]d201095060001343523712",
  `]d20109506000134352235TPX1${GS}21S1`,
  "]d2010950600013435210AB C",
  "]d201095060001343521726O101",
  "]d20109506000134352422000",
  "]d20109506000134352310300125A",
];

const CASES = [...VALID, ...FAULTY];
const ROUNDS = 8;
const PASSES_PER_ROUND = 1500;

type Reader = (text: string) => boolean;

const ours: Reader = (text) => readLabel(text, { today: TODAY, associations: "enforce" }).ok;

const theirs: Reader = (text) => {
  try {
    return parseBarcode(text).parsedCodeItems.length > 0;
  } catch {
    return false;
  }
};

function cpuSeconds(reader: Reader): number {
  const before = process.cpuUsage();
  for (let pass = 0; pass < PASSES_PER_ROUND; pass += 1) for (const text of CASES) reader(text);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1_000_000;
}

function report(label: string, reader: Reader, stringsPerSecond: number): void {
  const rate = Math.round(stringsPerSecond).toLocaleString("en");
  const refused = FAULTY.filter((text) => !reader(text)).length;
  const accepted = VALID.filter((text) => reader(text)).length;
  console.log(
    `${label}: ${rate} strings per CPU second; ` +
      `refuses ${refused} of ${FAULTY.length} faulty, reads ${accepted} of ${VALID.length} valid`,
  );
}

/**
 * Measures both parsers on the same strings in turns, so that a noisy machine disturbs both alike,
 * and prints the rates, their ratio and what each refuses.
 */
export async function run(): Promise<void> {
  cpuSeconds(ours);
  cpuSeconds(theirs);
  let oursSeconds = 0;
  let theirsSeconds = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    oursSeconds += cpuSeconds(ours);
    theirsSeconds += cpuSeconds(theirs);
  }
  const strings = ROUNDS * PASSES_PER_ROUND * CASES.length;
  report("readLabel", ours, strings / oursSeconds);
  report("gs1-barcode-parser-mod", theirs, strings / theirsSeconds);
  console.log(`ratio: ${(theirsSeconds / oursSeconds).toFixed(1)}`);
}
