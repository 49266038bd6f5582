import { useRef, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button, type ButtonKind } from "../ui/Button.tsx";
import { useCamera } from "./CameraProvider.tsx";

/** Chooses photos from the device, or takes one where the device has a camera of its own. */
export function PhotoButton({ kind = "plain" }: { kind?: ButtonKind }): ReactNode {
  const t = useTexts();
  const { takePhotos } = useCamera();
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button kind={kind} onClick={() => input.current?.click()}>
        {t.camera.photo}
      </Button>
      <input
        ref={input}
        hidden
        type="file"
        accept="image/*"
        multiple
        aria-label={t.camera.photo}
        onChange={({ currentTarget }) => {
          takePhotos(Array.from(currentTarget.files ?? []));
          // The same photo may be chosen again.
          currentTarget.value = "";
        }}
      />
    </>
  );
}
