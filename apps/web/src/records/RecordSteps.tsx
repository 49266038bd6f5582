import type { RecordView } from "#contracts/records";
import type { ReactNode } from "react";
import { Link } from "wouter";
import { sayEvent } from "#texts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { CodeLabel } from "../ui/CodeLabel.tsx";
import { Timeline, type TimelineEvent } from "../ui/Timeline.tsx";

type Step = RecordView["steps"][number];
type Material = RecordView["materials"][number];

/** The steps in the order of the technique, each with what was used at it and for how long. */
export function RecordSteps({ record }: { record: RecordView }): ReactNode {
  const { record: texts } = useTexts().records;
  const { time } = useFormats();
  const events = record.steps.map((step, place): TimelineEvent => {
    const materials = record.materials.filter(({ stepKey }) => stepKey === step.key);
    const isMissed = materials.some(({ lot }) => lot === null);
    return {
      key: step.key,
      at: step.startedAt ?? "",
      when: step.startedAt === null ? "" : time(step.startedAt),
      title: texts.stepOf(place + 1, step.name),
      detail: <StepDetail {...{ step, materials, record }} />,
      tone: isMissed ? "look" : step.done ? "good" : "plain",
    };
  });
  return <Timeline label={texts.steps} events={events} />;
}

interface StepDetailProps {
  step: Step;
  materials: readonly Material[];
  record: RecordView;
}

function StepDetail({ step, materials, record }: StepDetailProps): ReactNode {
  const { record: texts } = useTexts().records;
  const { language } = useFormats();
  const told = record.events.filter(({ stepKey }) => stepKey === step.key);
  const ran = told.findLast(({ kind }) => kind === "step-done")?.facts["seconds"];
  const words = [
    ...sayPlanned(step, texts),
    typeof ran === "number" ? texts.ran(ran) : "",
    step.usesMaterial ? "" : texts.noMaterial,
    step.usesMaterial && materials.length === 0 ? texts.nothingUsed : "",
    step.required ? "" : texts.optional,
    step.done ? "" : texts.notDone,
  ];
  return (
    <>
      <p>{words.filter((word) => word !== "").join(" · ")}</p>
      {told
        .filter(({ kind }) => kind === "cure" || kind === "thickness" || kind === "deviation")
        .map((event) => {
          const { title, details } = sayEvent(language, event, "");
          return (
            <p
              key={event.sequence}
              className={event.kind === "deviation" ? "record-deviation" : undefined}
            >
              {[title, ...details].join(" · ")}
            </p>
          );
        })}
      {materials.map((material) => (
        <MaterialLine key={material.id} material={material} />
      ))}
    </>
  );
}

type RecordTexts = ReturnType<typeof useTexts>["records"]["record"];
const durations = ["applicationSeconds", "airDrySeconds", "cureSeconds"] as const;

function sayPlanned(step: Step, texts: RecordTexts): string[] {
  return durations.flatMap((name) => {
    const planned = step[name];
    if (planned === null) return [];
    return [`${texts.planned[name](planned.seconds)} (${texts.from[planned.from]})`];
  });
}

function MaterialLine({ material }: { material: Material }): ReactNode {
  const { record: texts } = useTexts().records;
  const { shortDate } = useFormats();
  const { productName, lot, useBy, containerId, containerCode, notScannedReason } = material;
  return (
    <div className="record-material">
      <div>
        <p className="record-product">{productName}</p>
        {lot === null ? (
          <p className="record-missed">{texts.notScanned(notScannedReason ?? "")}</p>
        ) : (
          <p>
            <Link to={paths.withdrawals({ lot })} className="reach">
              {texts.lot(lot)}
            </Link>
            {useBy === null ? null : ` · ${texts.useBy(shortDate(useBy))}`}
          </p>
        )}
      </div>
      {containerId === null || containerCode === null ? null : (
        <CodeLabel id={containerId} code={containerCode} />
      )}
    </div>
  );
}
