import { useEffect, useRef, useState } from "react";

const bringsFiles = ({ dataTransfer }: DragEvent): boolean =>
  dataTransfer?.types.includes("Files") ?? false;

/** Photos dropped anywhere on the page or pasted into it. Answers whether one is held above it. */
export function usePhotosFromOutside(take: (files: readonly File[]) => void): boolean {
  const [isDropping, setIsDropping] = useState(false);
  const latest = useRef(take);
  useEffect(() => {
    latest.current = take;
  });
  useEffect(() => {
    const over = (event: DragEvent) => {
      // A field of a page may take files itself.
      if (event.defaultPrevented || !bringsFiles(event)) return;
      event.preventDefault();
      setIsDropping(true);
    };
    const leave = (event: DragEvent) => {
      if (event.relatedTarget === null) setIsDropping(false);
    };
    const drop = (event: DragEvent) => {
      setIsDropping(false);
      if (event.defaultPrevented || !bringsFiles(event)) return;
      event.preventDefault();
      latest.current(Array.from(event.dataTransfer?.files ?? []));
    };
    const paste = ({ clipboardData }: ClipboardEvent) => {
      const files = Array.from(clipboardData?.files ?? []);
      // With a text beside its picture it is the text that is meant.
      if (files.length > 0 && clipboardData?.getData("text") === "") latest.current(files);
    };
    const { signal, abort } = listening();
    window.addEventListener("dragover", over, { signal });
    window.addEventListener("dragleave", leave, { signal });
    window.addEventListener("drop", drop, { signal });
    window.addEventListener("paste", paste, { signal });
    return abort;
  }, []);
  return isDropping;
}

function listening(): { signal: AbortSignal; abort: () => void } {
  const controller = new AbortController();
  return { signal: controller.signal, abort: () => controller.abort() };
}
