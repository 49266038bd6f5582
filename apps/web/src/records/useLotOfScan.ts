import { call } from "../api/client.ts";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { useSayError } from "../ui/States.tsx";

/** Gives the lot that a scan names: that of the label, or of the container whose code it is. */
export function useLotOfScan(onLot: (lot: string) => void): (scan: Scan) => void {
  const t = useTexts();
  const announce = useAnnounce();
  const sayError = useSayError();
  const say = (text: string) => {
    playSound("look");
    announce({ text, tone: "look" });
  };
  const found = (lot: string | null | undefined) => {
    if (lot === null || lot === undefined) return say(t.records.search.noLot);
    playSound("taken");
    return onLot(lot);
  };
  return (scan) => {
    const { reading } = scan;
    if (reading.kind === "label") return found(reading.label.fields.lot);
    call("readScan", { body: textsOf(scan) }).then(
      ({ containers }) => found(containers[0]?.lot),
      (error: unknown) => say(sayError(error)),
    );
    return undefined;
  };
}
