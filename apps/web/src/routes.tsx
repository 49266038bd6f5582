import { Suspense, type ReactNode } from "react";
import { Route, Switch, useLocation } from "wouter";
import { pageOf } from "./page-code.tsx";
import { patterns } from "./paths.ts";
import { KeepScans } from "./scanner/KeepScans.tsx";
import { Boundary, NotFoundPage } from "./shell/Broken.tsx";

const practice = pageOf(() => import("./practice/PracticePage.tsx"));
const pages = {
  today: pageOf(() => import("./today/TodayPage.tsx")),
  trays: pageOf(() => import("./tray/TraysPage.tsx")),
  templates: pageOf(() => import("./tray/TemplatesPage.tsx")),
  newTemplate: pageOf(() => import("./tray/TemplatePage.tsx")),
  template: pageOf(() => import("./tray/TemplatePage.tsx")),
  importTrays: pageOf(() => import("./tray/ImportPage.tsx")),
  planTray: pageOf(() => import("./tray/PlanTrayPage.tsx")),
  tray: pageOf(() => import("./tray/TrayPage.tsx")),
  changeVisit: pageOf(() => import("./tray/ChangeVisitPage.tsx")),
  chairside: pageOf(() => import("./chairside/ChairsidePage.tsx")),
  receive: pageOf(() => import("./receive/ReceivePage.tsx")),
  delivery: pageOf(() => import("./receive/DeliveryPage.tsx")),
  shelf: pageOf(() => import("./shelf/ShelfPage.tsx")),
  container: pageOf(() => import("./shelf/ContainerPage.tsx")),
  records: pageOf(() => import("./records/RecordsPage.tsx")),
  waiting: pageOf(() => import("./waiting/WaitingPage.tsx")),
  record: pageOf(() => import("./records/RecordPage.tsx")),
  amendRecord: pageOf(() => import("./records/AmendPage.tsx")),
  compareRecord: pageOf(() => import("./records/ComparePage.tsx")),
  withdrawals: pageOf(() => import("./withdrawal/WithdrawalsPage.tsx")),
  withdrawal: pageOf(() => import("./withdrawal/CasePage.tsx")),
  catalogue: pageOf(() => import("./catalogue/CataloguePage.tsx")),
  newProduct: pageOf(() => import("./catalogue/NewProductPage.tsx")),
  systems: pageOf(() => import("./catalogue/SystemsPage.tsx")),
  technique: pageOf(() => import("./catalogue/TechniquePage.tsx")),
  editTechnique: pageOf(() => import("./catalogue/EditTechniquePage.tsx")),
  techniques: pageOf(() => import("./catalogue/TechniquesPage.tsx")),
  product: pageOf(() => import("./catalogue/ProductPage.tsx")),
  practice,
  practicePart: practice,
  light: pageOf(() => import("./practice/LightPage.tsx")),
};

/** Fetches the code of the page at an address, so that it is there as soon as it is wanted. */
export async function fetchPageAt(path: string): Promise<void> {
  const fits = (pattern: string) =>
    new RegExp(`^${pattern.replaceAll(/:\w+/g, "[^/]+")}$`).test(path);
  const names = Object.keys(pages) as (keyof typeof pages)[];
  const name = names.find((one) => fits(patterns[one]));
  if (name !== undefined) await pages[name].fetchCode();
}

/** Fetches the code of every page: they open at once then, and while the network is away. */
export async function fetchEveryPage(): Promise<void> {
  for (const { fetchCode } of Object.values(pages)) await fetchCode();
}

const trayRoutes = (
  <>
    <Route path={patterns.trays} component={pages.trays} />
    <Route path={patterns.planTray} component={pages.planTray} />
    <Route path={patterns.templates} component={pages.templates} />
    <Route path={patterns.newTemplate}>
      <pages.newTemplate templateId={null} />
    </Route>
    <Route path={patterns.template}>
      {({ templateId }) => <pages.template templateId={templateId} />}
    </Route>
    <Route path={patterns.importTrays} component={pages.importTrays} />
    <Route path={patterns.tray}>{({ trayId }) => <pages.tray trayId={trayId} />}</Route>
    <Route path={patterns.chairside}>{({ trayId }) => <pages.chairside trayId={trayId} />}</Route>
    <Route path={patterns.changeVisit}>
      {({ trayId }) => <pages.changeVisit trayId={trayId} />}
    </Route>
  </>
);

/** Every page of a signed-in person. */
export function Routes(): ReactNode {
  const [location] = useLocation();
  return (
    <Boundary key={location}>
      <Suspense fallback={<KeepScans />}>
        <Switch>
          <Route path={patterns.today} component={pages.today} />
          {trayRoutes}
          <Route path={patterns.receive} component={pages.receive} />
          <Route path={patterns.delivery}>
            {({ deliveryId }) => <pages.delivery deliveryId={deliveryId} />}
          </Route>
          <Route path={patterns.shelf} component={pages.shelf} />
          <Route path={patterns.container}>
            {({ containerId }) => <pages.container containerId={containerId} />}
          </Route>
          <Route path={patterns.records} component={pages.records} />
          <Route path={patterns.waiting} component={pages.waiting} />
          <Route path={patterns.record}>
            {({ recordId }) => <pages.record recordId={recordId} />}
          </Route>
          <Route path={patterns.amendRecord}>
            {({ recordId }) => <pages.amendRecord recordId={recordId} />}
          </Route>
          <Route path={patterns.compareRecord}>
            {({ recordId }) => <pages.compareRecord recordId={recordId} />}
          </Route>
          <Route path={patterns.withdrawals} component={pages.withdrawals} />
          <Route path={patterns.withdrawal}>
            {({ withdrawalId }) => <pages.withdrawal withdrawalId={withdrawalId} />}
          </Route>
          <Route path={patterns.catalogue} component={pages.catalogue} />
          <Route path={patterns.newProduct} component={pages.newProduct} />
          <Route path={patterns.systems} component={pages.systems} />
          <Route path={patterns.techniques} component={pages.techniques} />
          <Route path={patterns.technique}>
            {({ techniqueId }) => <pages.technique techniqueId={techniqueId} />}
          </Route>
          <Route path={patterns.editTechnique}>
            {({ techniqueId }) => <pages.editTechnique techniqueId={techniqueId} />}
          </Route>
          <Route path={patterns.product}>
            {({ productId }) => <pages.product productId={productId} />}
          </Route>
          <Route path={patterns.practice}>
            <pages.practice part={undefined} />
          </Route>
          <Route path={patterns.practicePart}>
            {({ part }) => <pages.practicePart part={part} />}
          </Route>
          <Route path={patterns.light}>{({ lightId }) => <pages.light lightId={lightId} />}</Route>
          <Route>
            <NotFoundPage />
          </Route>
        </Switch>
      </Suspense>
    </Boundary>
  );
}
