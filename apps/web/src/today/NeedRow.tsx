import type { ReactNode } from "react";
import { showContainerCode } from "#domain";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats, type Formats } from "../texts/useFormats.ts";
import type { ScreenTexts } from "#texts/screens-en";
import { LinkButton } from "../ui/Button.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import type { Need, RankedNeed } from "./urgency.ts";
import { showTooth } from "../texts/tooth-notation.ts";

interface NeedWords {
  title: string;
  detail: string;
  action: string;
  to: string;
}

/** One line of the list with its one next action. */
export function NeedRow({ ranked }: { ranked: RankedNeed }): ReactNode {
  const t = useTexts();
  const formats = useFormats();
  const { title, detail, action, to } = sayNeed(ranked.need, t, formats);
  return (
    <li className={`need ${ranked.tone}`}>
      {ranked.tone === "plain" ? (
        <span className="need-dot" />
      ) : (
        <VerdictShape verdict={ranked.tone} />
      )}
      <div>
        <p className="need-title">{title}</p>
        <p className="hint">{detail}</p>
      </div>
      <LinkButton to={to}>{action}</LinkButton>
    </li>
  );
}

function sayNeed(need: Need, t: ScreenTexts, formats: Formats): NeedWords {
  const { lines, actions } = t.today;
  switch (need.kind) {
    case "withdrawal": {
      const { id, reference, here } = need.withdrawal;
      return {
        title: lines.withdrawal(reference),
        detail: here > 0 ? lines.withdrawalHere(here) : lines.withdrawalGone,
        action: actions.openCase,
        to: paths.withdrawal(id),
      };
    }
    case "tray":
      return sayTray(need.tray, t, formats);
    case "draft": {
      const { trayId, tooth, chartNumber, startedAt } = need.draft;
      return {
        title: lines.draft(showTooth(tooth), chartNumber),
        detail: lines.started(formats.dateTime(startedAt)),
        action: actions.sign,
        to: paths.chairside(trayId),
      };
    }
    case "expired":
    case "ending": {
      const { id, product, code, endsOn, location } = need.container;
      const name = `${product.name} ${showContainerCode(code)}`;
      const date = formats.date(endsOn?.date ?? "");
      const expired = need.kind === "expired";
      return {
        title: expired ? lines.expired(name) : lines.endsSoon(name),
        detail: expired ? lines.endedOn(date, location.name) : lines.endsOn(date, location.name),
        action: expired ? actions.takeAway : actions.useFirst,
        to: paths.container(id),
      };
    }
    case "waiting": {
      const { overdue, longestDays, limitDays } = need.waiting;
      return {
        title: t.waiting.today.line(overdue),
        detail: t.waiting.today.detail(longestDays, limitDays),
        action: t.waiting.today.action,
        to: paths.waiting({ list: "overdue" }),
      };
    }
    case "lights":
      return sayLights(need.lights, t);
    case "excursion":
      return sayExcursion(need.excursion, t, formats);
    case "unconfirmed":
      return {
        title: lines.unconfirmed(need.product.name),
        detail: lines.unconfirmedWhy,
        action: actions.confirm,
        to: paths.product(need.product.id),
      };
  }
}

function sayLights(lights: NeedOf<"lights">["lights"], t: ScreenTexts): NeedWords {
  const { today, states } = t.keeping.lights;
  const [only, ...others] = lights;
  return {
    title: today.line(lights.length),
    detail: lights.map(({ name, state }) => `${name}: ${states[state]}`).join(" · "),
    action: today.action,
    to: only && others.length === 0 ? paths.light(only.id) : paths.practicePart("lights"),
  };
}

function sayExcursion(
  { place, from, containers }: NeedOf<"excursion">["excursion"],
  t: ScreenTexts,
  formats: Formats,
): NeedWords {
  const { today } = t.keeping.temperatures;
  return {
    title: today.line(place),
    detail: `${formats.dateTime(from)} · ${today.detail(containers)}`,
    action: today.action,
    to: paths.practicePart("temperatures"),
  };
}

type NeedOf<K extends Need["kind"]> = Extract<Need, { kind: K }>;
type TrayNeed = Extract<Need, { kind: "tray" }>["tray"];

function sayTray(tray: TrayNeed, t: ScreenTexts, formats: Formats): NeedWords {
  const place = `${formats.time(tray.appointmentAt)} · ${tray.locationName}`;
  const { missing } = tray;
  return {
    title: t.today.lines.trayStop(tray.teeth.map(showTooth).join(", "), tray.chartNumber),
    detail: missing > 0 ? `${place} · ${t.today.lines.missing(missing)}` : place,
    action: missing > 0 ? t.today.actions.setTray : t.today.actions.lookAt,
    to: paths.tray(tray.id),
  };
}
