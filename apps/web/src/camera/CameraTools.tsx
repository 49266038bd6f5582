import { useEffect, useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Select } from "../ui/Field.tsx";
import { listCameras, type CameraName } from "./camera-choice.ts";
import { aboutCamera, readControls, setZoom, switchLight } from "./track.ts";

interface CameraToolsProps {
  stream: MediaStream;
  onChoose: (cameraId: string) => void;
}

/** Light, zoom and choice of camera, each where there is something to choose. */
export function CameraTools({ stream, onChoose }: CameraToolsProps): ReactNode {
  const t = useTexts();
  const cameras = useCameras();
  const [{ hasLight, zoom }] = useState(() => readControls(stream));
  return (
    <div className="camera-tools">
      {hasLight ? <LightButton stream={stream} /> : null}
      {zoom === null ? null : <ZoomSlider stream={stream} zoom={zoom} />}
      {cameras.length < 2 ? null : (
        <Select
          label={t.camera.which}
          value={aboutCamera(stream).id ?? ""}
          onChange={({ target }) => onChoose(target.value)}
        >
          {cameras.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </Select>
      )}
    </div>
  );
}

/** The cameras of the device: their names are told once one of them is allowed. */
function useCameras(): CameraName[] {
  const { camera } = useTexts();
  const [cameras, setCameras] = useState<CameraName[]>([]);
  useEffect(() => {
    const { mediaDevices } = navigator;
    let isWanted = true;
    const list = () => {
      mediaDevices.enumerateDevices().then(
        (devices) => {
          if (isWanted) setCameras(listCameras(devices, camera.number));
        },
        () => undefined,
      );
    };
    list();
    mediaDevices.addEventListener("devicechange", list);
    return () => {
      isWanted = false;
      mediaDevices.removeEventListener("devicechange", list);
    };
  }, [camera]);
  return cameras;
}

function LightButton({ stream }: { stream: MediaStream }): ReactNode {
  const t = useTexts();
  const [isOn, setIsOn] = useState(false);
  return (
    <Button
      aria-pressed={isOn}
      onClick={() => {
        void switchLight(stream, !isOn).then((isDone) => {
          if (isDone) setIsOn(!isOn);
        });
      }}
    >
      {t.camera.light}
    </Button>
  );
}

interface ZoomSliderProps {
  stream: MediaStream;
  zoom: NonNullable<ReturnType<typeof readControls>["zoom"]>;
}

function ZoomSlider({ stream, zoom }: ZoomSliderProps): ReactNode {
  const t = useTexts();
  const [value, setValue] = useState(zoom.value);
  return (
    <label className="camera-zoom">
      <span>{t.camera.zoom}</span>
      <input
        type="range"
        min={zoom.min}
        max={zoom.max}
        step={zoom.step || 0.1}
        value={value}
        onChange={({ target }) => {
          setValue(target.valueAsNumber);
          void setZoom(stream, target.valueAsNumber);
        }}
      />
    </label>
  );
}
