import { useState, type ReactNode } from "react";
import { useLocation, useSearchParams } from "wouter";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";
import { StepFields } from "./StepFields.tsx";
import {
  draftOf,
  listWrong,
  moveStep,
  newStep,
  readStep,
  type StepDraft,
  type Technique,
} from "./technique-draft.ts";
import "./catalogue.css";

/** Edits a technique as its next version, or as a copy that is the practice's own. */
export default function EditTechniquePage({ techniqueId }: { techniqueId: string }): ReactNode {
  const query = useRead("getTechnique", { params: { techniqueId } });
  return <QueryView query={query}>{(found) => <Editor technique={found} />}</QueryView>;
}

/** Saves what is edited, and opens it. */
function useSave(technique: Technique, isCopy: boolean) {
  const { technique: t } = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const done = ({ id, version }: Technique): void => {
    refresh("listTechniques", "getTechnique");
    announce({ text: t.saved(version) });
    navigate(paths.technique(id));
  };
  const add = useWrite("addTechnique", done);
  const change = useWrite("changeTechnique", done);
  return {
    error: add.error ?? change.error,
    isPending: add.isPending || change.isPending,
    forgetError: () => {
      add.reset();
      change.reset();
    },
    save: (name: string, drafts: readonly StepDraft[]) => {
      const steps = drafts.map(readStep);
      const { id, visit } = technique;
      if (isCopy) add.mutate({ body: { name, visit, steps, madeFrom: id } });
      else change.mutate({ params: { techniqueId: id }, body: { name, steps } });
    },
  };
}

function Editor({ technique }: { technique: Technique }): ReactNode {
  const { technique: t } = useTexts();
  const [search] = useSearchParams();
  const isCopy = technique.starter || search.get("as") === "copy";
  const title = isCopy ? t.copyTitle(technique.name) : t.editTitle(technique.name);
  const [name, setName] = useState(isCopy ? title : technique.name);
  const [steps, setSteps] = useState<readonly StepDraft[]>(technique.steps.map(draftOf));
  const [tried, setTried] = useState(false);
  const { error, isPending, forgetError, save } = useSave(technique, isCopy);
  const change = (at: number, part: Partial<StepDraft>) =>
    setSteps(steps.map((step, index) => (index === at ? { ...step, ...part } : step)));
  // Faults are told by a step's place, which is another one then.
  const rearrange = (rearranged: readonly StepDraft[]) => {
    forgetError();
    setSteps(rearranged);
  };
  const isWrong = steps.some((step) => listWrong(step).length > 0);
  return (
    <Page title={title} lead={t.keeps}>
      <form
        className="technique-editor"
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          if (!isWrong) save(name, steps);
        }}
      >
        <TextField
          label={t.name}
          value={name}
          maxLength={100}
          required
          onChange={({ target }) => setName(target.value)}
        />
        <h2>{t.steps}</h2>
        {steps.map((step, index) => (
          <StepFields
            key={step.key}
            {...{ step, index, error, tried }}
            isLast={index === steps.length - 1}
            onChange={(part) => change(index, part)}
            onMove={(by) => rearrange(moveStep(steps, index, index + by))}
            onRemove={() => rearrange(steps.filter((one) => one !== step))}
          />
        ))}
        <div className="actions">
          <Button onClick={() => setSteps([...steps, newStep(steps, t.newStep)])}>
            {t.addStep}
          </Button>
          <Button kind="main" type="submit" busy={isPending}>
            {isCopy ? t.saveCopy : t.saveVersion}
          </Button>
        </div>
        <ProblemNote error={error} />
      </form>
    </Page>
  );
}
