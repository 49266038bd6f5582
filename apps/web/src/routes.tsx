import { lazy, Suspense, type ReactNode } from "react";
import { Route, Switch, useLocation } from "wouter";
import { patterns } from "./paths.ts";
import { Boundary, NotFoundPage } from "./shell/Broken.tsx";
import { Loading } from "./ui/States.tsx";

const TodayPage = lazy(() => import("./today/TodayPage.tsx"));
const TraysPage = lazy(() => import("./tray/TraysPage.tsx"));
const PlanTrayPage = lazy(() => import("./tray/PlanTrayPage.tsx"));
const TrayPage = lazy(() => import("./tray/TrayPage.tsx"));
const ChairsidePage = lazy(() => import("./chairside/ChairsidePage.tsx"));
const ReceivePage = lazy(() => import("./receive/ReceivePage.tsx"));
const DeliveryPage = lazy(() => import("./receive/DeliveryPage.tsx"));
const ShelfPage = lazy(() => import("./shelf/ShelfPage.tsx"));
const ContainerPage = lazy(() => import("./shelf/ContainerPage.tsx"));
const RecordsPage = lazy(() => import("./records/RecordsPage.tsx"));
const RecordPage = lazy(() => import("./records/RecordPage.tsx"));
const WithdrawalsPage = lazy(() => import("./withdrawal/WithdrawalsPage.tsx"));
const CasePage = lazy(() => import("./withdrawal/CasePage.tsx"));
const CataloguePage = lazy(() => import("./catalogue/CataloguePage.tsx"));
const NewProductPage = lazy(() => import("./catalogue/NewProductPage.tsx"));
const SystemsPage = lazy(() => import("./catalogue/SystemsPage.tsx"));
const TechniquesPage = lazy(() => import("./catalogue/TechniquesPage.tsx"));
const PracticePage = lazy(() => import("./practice/PracticePage.tsx"));
const ProductPage = lazy(() => import("./catalogue/ProductPage.tsx"));

/** Every page of a signed-in person; each is loaded when it is first asked for. */
export function Routes(): ReactNode {
  const [location] = useLocation();
  return (
    <Boundary key={location}>
      <Suspense fallback={<Loading />}>
        <Switch>
          <Route path={patterns.today} component={TodayPage} />
          <Route path={patterns.trays} component={TraysPage} />
          <Route path={patterns.planTray} component={PlanTrayPage} />
          <Route path={patterns.tray}>{({ trayId }) => <TrayPage trayId={trayId} />}</Route>
          <Route path={patterns.chairside}>
            {({ trayId }) => <ChairsidePage trayId={trayId} />}
          </Route>
          <Route path={patterns.receive} component={ReceivePage} />
          <Route path={patterns.delivery}>
            {({ deliveryId }) => <DeliveryPage deliveryId={deliveryId} />}
          </Route>
          <Route path={patterns.shelf} component={ShelfPage} />
          <Route path={patterns.container}>
            {({ containerId }) => <ContainerPage containerId={containerId} />}
          </Route>
          <Route path={patterns.records} component={RecordsPage} />
          <Route path={patterns.record}>
            {({ recordId }) => <RecordPage recordId={recordId} />}
          </Route>
          <Route path={patterns.withdrawals} component={WithdrawalsPage} />
          <Route path={patterns.withdrawal}>
            {({ withdrawalId }) => <CasePage withdrawalId={withdrawalId} />}
          </Route>
          <Route path={patterns.catalogue} component={CataloguePage} />
          <Route path={patterns.newProduct} component={NewProductPage} />
          <Route path={patterns.systems} component={SystemsPage} />
          <Route path={patterns.techniques} component={TechniquesPage} />
          <Route path={patterns.product}>
            {({ productId }) => <ProductPage productId={productId} />}
          </Route>
          <Route path={patterns.practice}>
            <PracticePage part={undefined} />
          </Route>
          <Route path={patterns.practicePart}>{({ part }) => <PracticePage part={part} />}</Route>
          <Route>
            <NotFoundPage />
          </Route>
        </Switch>
      </Suspense>
    </Boundary>
  );
}
