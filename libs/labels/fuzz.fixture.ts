import { hibcCheckCharacter } from "./hibc-check.ts";
import { encodeElementString } from "./encode.ts";
import { ppnCheckDigits } from "./ifa.ts";
import type { Random } from "./random.fixture.ts";
import { HIBC_LETTERS, randomElements, randomValue } from "./samples.fixture.ts";

/** Texts as no scanner should send them, and such as one may: what the reader must answer. */

/** Pieces of real labels, so that random text gets past the first branch of every reader. */
const PIECES =
  "]d2 ]C1 ]e0 ]C0 ]E0 ]E4 ]I1 ]Q1 ]Q3 ]A0 ]A3 ]A5 ]D2 ] 01 10 17 21 37 3103 7003 8008 8013 99 " +
  "(01) (10) (17) (99) (19) ( ) 09506000134352 9506000134352 261231 260200 <GS> {GS} [GS] ^] | ~1 " +
  "{RS} https://id.gs1.org HTTP://a /01/ /10/ /21/ ?17= ?10= & ; = # % %2F %2f %zz + +A999 +A9991 " +
  "+$$ +$$3 $ $$+7 /S /14D /16D /Q * *+ _ [)> 9N 8P 1T 16D D S =A0123 &1 ABC abc - /";
const CONTROLS =
  "\u001d \u001e \u0004 \u001d\u001d \r\n \t \u0000 \u241d \u2028 \ud800 \u00e9 \u{1f9b7}";
const FRAGMENTS = [...PIECES.split(" "), ...CONTROLS.split(" "), " ", "[)>\u001e06\u001d"];

function soup(random: Random): string {
  let text = "";
  for (let left = random.below(13); left > 0; left -= 1) {
    text += random.below(8) === 0 ? binary(random, 6) : random.pick(FRAGMENTS);
  }
  return text;
}

function binary(random: Random, longest: number): string {
  const highest = random.pick([0x7f, 0xff, 0xffff]);
  const units = Array.from({ length: random.below(longest + 1) }, () => random.below(highest + 1));
  return String.fromCharCode(...units);
}

/** One piece over and over, now and then longer than any label. */
function repeated(random: Random): string {
  const piece = random.pick(FRAGMENTS) + random.pick(FRAGMENTS);
  const most = random.below(200) === 0 ? 4000 : 60;
  return random.pick(FRAGMENTS) + piece.repeat(random.below(most));
}

function elementString(random: Random): string {
  const elements = randomElements(random);
  const prefix = random.pick(["]d2", "]C1", "]Q3", "]e0", ""]);
  if (random.below(3) > 0) return prefix + encodeElementString(elements);
  return elements.map(({ ai, value }) => `(${ai})${value}`).join(random.pick(["", " "]));
}

function hibc(random: Random): string {
  const lot = random.text(HIBC_LETTERS, 0, 19);
  const dates = ["", "$", "$$7", "$$3261231", "$$0628", "$$82412", "$$+5", "$$626365"];
  const tail = random.pick(["", "/S1", "/16D20251231", "/Q12", "/14D20281301", "/X"]);
  const secondary = random.pick(dates) + lot + tail;
  const primary = `A${random.text(HIBC_LETTERS, 3, 22)}${random.below(10)}`;
  const data = random.pick([`+${primary}`, `+${secondary}0`, `+${primary}/${secondary}`]);
  return data + (hibcCheckCharacter(data) ?? "");
}

function link(random: Random): string {
  const path = `/01/${randomValue("01", random)}`;
  const qualifiers = ["22", "10", "21"].filter(() => random.below(2) === 0);
  const escaped = qualifiers.map((ai) => `/${ai}/${encodeURIComponent(randomValue(ai, random))}`);
  const query = random.below(2) === 0 ? "" : `?17=${randomValue("17", random)}&x=1`;
  return `https://example.com${path}${escaped.join("")}${query}`;
}

function message(random: Random): string {
  const product = `11${random.text(HIBC_LETTERS, 3, 18)}`;
  const ppn = product + ppnCheckDigits(product);
  return `[)>\u001e06\u001d9N${ppn}\u001d1T${randomValue("10", random)}\u001dD261231\u001e\u0004`;
}

/** A character exchanged, dropped or put in, anywhere. */
function damaged(text: string, random: Random): string {
  const at = random.below(text.length + 1);
  const added =
    random.below(3) === 0 ? "" : random.pick([random.pick(FRAGMENTS), binary(random, 1)]);
  return text.slice(0, at) + added + text.slice(at + random.below(2));
}

const STANDARDS = [elementString, elementString, hibc, link, message];

/** One scan of whatever kind: sound, damaged, or none at all. */
export function randomScan(random: Random): string {
  const kind = random.below(10);
  if (kind < 3) return soup(random);
  if (kind === 3) return binary(random, 60);
  if (kind === 4) return repeated(random);
  let text = random.pick(STANDARDS)(random);
  for (let faults = random.below(4); faults > 0; faults -= 1) text = damaged(text, random);
  return text;
}
