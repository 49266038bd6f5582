export { greyOf, type Picture, type Point } from "./picture.ts";
export {
  type Effort,
  type RawRead,
  type SymbolFormat,
  type SymbolRead,
  type SymbolReader,
} from "./reader.ts";
export { makeWasmReader } from "./wasm-reader.ts";
export { makeScriptReader } from "./script-reader.ts";
export { type IsKnown } from "./agreement.ts";
export { readPicture } from "./read-picture.ts";
export { LiveReading } from "./live-reading.ts";
