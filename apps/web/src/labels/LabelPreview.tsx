import { useState, type ReactNode } from "react";
import { labelSizesUm } from "#domain";
import { addressOf } from "../api/client.ts";
import { useTexts } from "../texts/Texts.tsx";
import type { LabelSize } from "./label-size.ts";
import type { Subject } from "./usePrinting.ts";

interface LabelPreviewProps {
  subject: Subject;
  size: LabelSize;
  /** The label of the printer or sheet it goes on; else one of the size named. */
  stock: { labelWidthUm: number; labelHeightUm: number } | undefined;
  caption: string;
}

/** One label as the server draws it for print. */
export function LabelPreview({ subject, size, stock, caption }: LabelPreviewProps): ReactNode {
  const { print: t } = useTexts().labels;
  const { labelWidthUm, labelHeightUm } = stock ?? {};
  const { widthUm, heightUm } = labelSizesUm[size];
  // Room for it before it is there, so that nothing moves under a finger.
  const aspectRatio = (labelWidthUm ?? widthUm) / (labelHeightUm ?? heightUm);
  const query = { ...subject, size, labelWidthUm, labelHeightUm };
  const address = addressOf("previewLabel", { query });
  const [missing, setMissing] = useState("");
  return (
    <figure className="label-preview">
      {missing === address ? (
        <p className="hint">{t.previewMissing}</p>
      ) : (
        <img
          src={address}
          alt={t.preview}
          style={{ aspectRatio }}
          onError={() => setMissing(address)}
        />
      )}
      {caption === "" ? null : <figcaption className="hint">{caption}</figcaption>}
    </figure>
  );
}
