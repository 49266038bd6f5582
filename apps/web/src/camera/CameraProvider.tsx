import {
  createContext,
  useCallback,
  useContext,
  useMemo,
  useState,
  type ComponentType,
  type ReactNode,
} from "react";
import { playSound, readySounds } from "../scanner/sounds.ts";
import { useScanEntry } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { usePhotosFromOutside } from "./usePhotosFromOutside.ts";

interface Camera {
  isOpen: boolean;
  toggle: () => void;
  /** Reads the labels in photos and gives them on as scans. */
  takePhotos: (files: readonly File[]) => void;
}

const CameraContext = createContext<Camera | null>(null);

/** The camera and photos, one tap from every page; their code is fetched with the first tap. */
export function CameraProvider({ children }: { children: ReactNode }): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const [Panel, setPanel] = useState<ComponentType<{ onClose: () => void }> | null>(null);
  const close = useCallback(() => setPanel(null), []);
  const isOpen = Panel !== null;
  const toggle = useCallback(() => {
    if (isOpen) return setPanel(null);
    readySounds();
    import("./CameraPanel.tsx").then(
      ({ CameraPanel }) => setPanel(() => CameraPanel),
      () => announce({ text: t.states.unreachable, tone: "bad" }),
    );
  }, [isOpen, announce, t]);
  const takePhotos = useTakePhotos();
  const isDropping = usePhotosFromOutside(takePhotos);
  const value = useMemo(() => ({ isOpen, toggle, takePhotos }), [isOpen, toggle, takePhotos]);
  return (
    <CameraContext value={value}>
      {children}
      {Panel === null ? null : <Panel onClose={close} />}
      {isDropping ? (
        <p className="drop-hint" popover="manual" ref={(hint) => hint?.showPopover?.()}>
          {t.camera.drop}
        </p>
      ) : null}
    </CameraContext>
  );
}

function useTakePhotos(): Camera["takePhotos"] {
  const t = useTexts();
  const announce = useAnnounce();
  const { enter } = useScanEntry();
  const { today } = useFormats();
  return useCallback(
    (files) => {
      const complain = (text: string) => {
        playSound("look");
        announce({ text, tone: "bad" });
      };
      announce({ text: t.camera.readingPhoto });
      import("./read-photo.ts")
        .then(async ({ readPhoto }) => {
          for (const file of files) {
            const { give, fault } = await readPhoto(file, today());
            for (const raw of give) enter(raw, "photo");
            if (fault !== null) complain(t.camera[fault]);
          }
        })
        .catch(() => complain(t.states.unreachable));
    },
    [t, announce, enter, today],
  );
}

export function useCamera(): Camera {
  const camera = useContext(CameraContext);
  if (camera === null) throw new Error("useCamera outside of CameraProvider");
  return camera;
}
