import type { MouseEvent, ReactNode } from "react";
import type { SheetGeometry } from "#domain";
import { listCorners, placeAt, type Point } from "./sheet-places.ts";

interface SheetPictureProps {
  shape: SheetGeometry;
  /** What the picture is of; none where something around it says so. */
  label?: string;
  /** The labels that will be printed on this sheet, and the first free one. */
  due?: { start: number; count: number };
}

/** A sheet drawn to scale: what is used up, what will be printed, what stays free. */
export function SheetPicture({ shape, label, due }: SheetPictureProps): ReactNode {
  const { pageWidthUm, pageHeightUm, labelWidthUm, labelHeightUm } = shape;
  const stateOf = (number: number, { xUm, yUm }: Point): string => {
    if (xUm + labelWidthUm > pageWidthUm || yUm + labelHeightUm > pageHeightUm) return "beyond";
    if (due === undefined) return "free";
    if (number < due.start) return "used";
    return number < due.start + due.count ? "due" : "free";
  };
  return (
    <svg
      className="sheet-picture"
      viewBox={`0 0 ${pageWidthUm} ${pageHeightUm}`}
      role={label === undefined ? undefined : "img"}
      aria-label={label}
      aria-hidden={label === undefined ? true : undefined}
    >
      <rect className="sheet-page" width={pageWidthUm} height={pageHeightUm} />
      {listCorners(shape).map((corner, index) => (
        <rect
          key={`${corner.xUm} ${corner.yUm}`}
          className={`sheet-label ${stateOf(index + 1, corner)}`}
          x={corner.xUm}
          y={corner.yUm}
          width={labelWidthUm}
          height={labelHeightUm}
          rx={Math.min(1_500, labelHeightUm / 6)}
        />
      ))}
    </svg>
  );
}

interface SheetTapProps extends Required<SheetPictureProps> {
  places: number;
  onStart: (number: number) => void;
}

/** The same to be tapped: the label under the finger becomes the first free one. */
export function SheetTap({ label, places, onStart, ...picture }: SheetTapProps): ReactNode {
  const { shape, due } = picture;
  function tap(event: MouseEvent<HTMLButtonElement>): void {
    // A key has no place on the picture: it goes one label on.
    if (event.detail === 0) return onStart((due.start % places) + 1);
    const drawn = event.currentTarget.querySelector("svg")?.getBoundingClientRect();
    if (drawn === undefined || drawn.width === 0) return;
    const scale = shape.pageWidthUm / drawn.width;
    const xUm = (event.clientX - drawn.left) * scale;
    onStart(placeAt(shape, { xUm, yUm: (event.clientY - drawn.top) * scale }));
  }
  return (
    <button type="button" className="sheet-tap" aria-label={label} onClick={tap}>
      <SheetPicture {...picture} />
    </button>
  );
}
