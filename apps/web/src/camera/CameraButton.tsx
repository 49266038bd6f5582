import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { useCamera } from "./CameraProvider.tsx";
import "./camera-button.css";

/** Opens the camera, and closes it again. */
export function CameraButton(): ReactNode {
  const t = useTexts();
  const { isOpen, toggle } = useCamera();
  return (
    <button
      type="button"
      className="camera-button"
      aria-label={t.camera.button}
      title={t.camera.button}
      aria-pressed={isOpen}
      onClick={toggle}
    >
      <svg viewBox="0 0 32 32" aria-hidden="true">
        <path d="M4 10V5a1 1 0 0 1 1-1h5M22 4h5a1 1 0 0 1 1 1v5M28 22v5a1 1 0 0 1-1 1h-5M10 28H5a1 1 0 0 1-1-1v-5" />
        <circle cx="16" cy="16" r="6" />
        <circle cx="16" cy="16" r="1.5" />
      </svg>
    </button>
  );
}
