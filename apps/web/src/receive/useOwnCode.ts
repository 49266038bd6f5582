import { useLocation } from "wouter";
import { call } from "../api/client.ts";
import { paths } from "../paths.ts";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";

/** Says so where a scan is the code of a container that is here already, and answers whether. */
export function useOwnCode(): (scan: Scan) => boolean {
  const { receive: t } = useTexts();
  const announce = useAnnounce();
  const [, navigate] = useLocation();
  return (scan) => {
    const { reading } = scan;
    if (reading.kind !== "container") return false;
    playSound("look");
    const show = async () => {
      const { containers } = await call("readScan", { body: textsOf(scan) });
      const [found] = containers;
      if (found !== undefined) navigate(paths.container(found.id));
    };
    const action = { label: t.ownCodeOpen, act: () => void show() };
    announce({ text: t.ownCode, tone: "look", action });
    return true;
  };
}
