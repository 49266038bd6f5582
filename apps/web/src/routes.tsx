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
          <Route>
            <NotFoundPage />
          </Route>
        </Switch>
      </Suspense>
    </Boundary>
  );
}
