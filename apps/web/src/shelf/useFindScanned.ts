import { useLocation } from "wouter";
import { call } from "../api/client.ts";
import { paths } from "../paths.ts";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { useSayError } from "../ui/States.tsx";

const kept = ["sealed", "open", "quarantined"];

/** A scan at the shelf: the one container it means, or all of its label. */
export function useFindScanned(): (scan: Scan) => void {
  const t = useTexts();
  const announce = useAnnounce();
  const sayError = useSayError();
  const [, navigate] = useLocation();
  return (scan) => {
    call("readScan", { body: textsOf(scan) }).then(
      ({ containers, product, reading }) => {
        const here = containers.filter(({ state }) => kept.includes(state));
        const [only, ...others] = here.length === 0 ? containers : here;
        if (only === undefined) {
          playSound("look");
          const action = { label: t.scan.receiveIt, act: () => navigate(paths.receive()) };
          announce({ text: t.shelf.notFound, tone: "look", action });
          return;
        }
        playSound("taken");
        if (others.length === 0) return navigate(paths.container(only.id));
        announce({ text: t.shelf.several(others.length + 1) });
        navigate(
          paths.shelf({
            product: product?.id,
            lot: reading.lot ?? undefined,
            state: here.length === 0 ? "all" : undefined,
          }),
        );
      },
      (error: unknown) => {
        playSound("look");
        announce({ text: sayError(error), tone: "bad" });
      },
    );
  };
}
