/**
 * Forty labels, each of which breaks one rule of GS1, and that rule. In brackets, as bwip-js takes
 * them; what a scanner sends is made from that. A doubled separator and a separator within a value
 * of fixed length cannot be written so, hence they are not among them.
 */
const KEY = "(01)09506000134352";

export const faultyLabels: readonly (readonly [rule: string, label: string])[] = [
  ["check digit of a GTIN", "(01)09506000134353"],
  ["check digit of an SSCC", "(00)106141412345678900"],
  ["check digit of a location number", "(414)9506000134353"],
  ["check digit of a document type", "(253)9506000134353A1"],
  ["check digit of a returnable asset", "(8003)09506000134353A1"],
  ["check digit of a service relation", "(8018)950600013435200009"],
  ["check digit of a piece of a trade item", "(8006)095060001343530102"],
  ["check digit of a shipment", "(402)95060001343520002"],
  ["check characters of a model", "(8013)1987654Ad4X4bL5ttr2310c2X"],
  ["use-by date in month 13", `${KEY}(17)261301`],
  ["use-by date in month 00", `${KEY}(17)260015`],
  ["use-by date on 30 February", `${KEY}(17)260230`],
  ["use-by date on 31 April", `${KEY}(17)260431`],
  ["use-by date on 29 February of a common year", `${KEY}(17)270229`],
  ["production date on day 32", `${KEY}(11)261232`],
  ["best-before date in month 19", `${KEY}(15)261901`],
  ["expiry at hour 24", `${KEY}(7003)2612312400`],
  ["expiry at minute 60", `${KEY}(7003)2612311260`],
  ["expiry with a time and no day", `${KEY}(7003)2612001200`],
  ["production at second 60", `${KEY}(8008)260101235960`],
  ["an AI that does not exist", `${KEY}(231)ABC`],
  ["lot of 21 characters", `${KEY}(10)ABCDEFGHIJKLMNOPQRSTU`],
  ["serial of 21 characters", `${KEY}(21)ABCDEFGHIJKLMNOPQRSTU`],
  ["additional identification of 31 characters", `${KEY}(240)${"A".repeat(31)}`],
  ["date of 5 digits", `${KEY}(17)26123`],
  ["GTIN of 13 digits", "(01)9506000134352"],
  ["empty lot", `${KEY}(10)(21)S1`],
  ["space in a lot", `${KEY}(10)AB C`],
  ["character outside set 82 in a lot", `${KEY}(10)AB#C`],
  ["letter O in a date", `${KEY}(17)26O101`],
  ["letter in a count", `${KEY}(30)1A`],
  ["one AI with two values", `${KEY}(10)ABC(10)ABD`],
  ["use-by date of no item", "(17)261231(21)S1"],
  ["lot of no item", "(10)ABC"],
  ["count of the content beside the item itself", `${KEY}(37)12`],
  ["content of no logistic unit", "(02)09506000134352(10)ABC"],
  ["item beside its content", `(00)106141412345678908${KEY}(02)09520123456788(37)12`],
  ["serial beside a third party's", `${KEY}(235)TPX1(21)S1`],
  ["country that does not exist", `${KEY}(422)000`],
  ["piece 2 of 1", "(8006)095060001343520201"],
];
