import { useQueryClient } from "@tanstack/react-query";
import { lazy, Suspense, useEffect, type ReactNode } from "react";
import { Redirect, Route, Switch, useLocation, useSearch } from "wouter";
import { whenSignedOut } from "./api/client.ts";
import { CameraProvider } from "./camera/CameraProvider.tsx";
import { setToothNotation } from "./texts/tooth-notation.ts";
import { useLive } from "./live/useLive.ts";
import type { Outbox } from "./outbox/outbox.ts";
import { OutboxProvider } from "./outbox/OutboxProvider.tsx";
import { paths, patterns } from "./paths.ts";
import { fetchEveryPage, Routes } from "./routes.tsx";
import { OwnCodesProvider } from "./scanner/OwnCodes.tsx";
import { ScanProvider } from "./scanner/ScanProvider.tsx";
import { UntakenScan } from "./scanner/UntakenScan.tsx";
import { SessionContext, useSessionQuery, useTakeSession } from "./session/session.ts";
import { Shell } from "./shell/Shell.tsx";
import { useLanguage } from "./texts/Texts.tsx";
import { AnnouncerProvider } from "./ui/Announcer.tsx";
import { Loading, ProblemNote } from "./ui/States.tsx";

const SignInPage = lazy(() => import("./sign-in/SignInPage.tsx"));
const SetUpPage = lazy(() => import("./sign-in/SetUpPage.tsx"));
const restMs = 2_000;

export function App({ outbox }: { outbox: Outbox }): ReactNode {
  const query = useSessionQuery();
  const session = query.data ?? null;
  const { followPractice } = useLanguage();
  useEffect(() => {
    if (session !== null) followPractice(session.practice.language);
  }, [session, followPractice]);
  useSignedOut();
  return (
    <SessionContext value={session}>
      <AnnouncerProvider>
        <OutboxProvider outbox={outbox}>
          <Suspense fallback={<Loading />}>
            <Switch>
              <Route path={patterns.signIn} component={SignInPage} />
              <Route path={patterns.setUp} component={SetUpPage} />
              <Route>
                {query.data === undefined ? (
                  <Waiting error={query.error} onRetry={() => void query.refetch()} />
                ) : (
                  <SignedIn />
                )}
              </Route>
            </Switch>
          </Suspense>
        </OutboxProvider>
      </AnnouncerProvider>
    </SessionContext>
  );
}

function useSignedOut(): void {
  const queries = useQueryClient();
  const takeSession = useTakeSession();
  useEffect(() => {
    whenSignedOut(() => {
      // Before anybody has signed in, the question itself is answered so.
      if (queries.getQueryData(["getSession"]) !== undefined) takeSession(null);
    });
  }, [queries, takeSession]);
}

function Waiting({ error, onRetry }: { error: unknown; onRetry: () => void }): ReactNode {
  return (
    <main className="alone">
      {error ? <ProblemNote error={error} onRetry={onRetry} /> : <Loading />}
    </main>
  );
}

function Live(): ReactNode {
  useLive();
  return null;
}

function SignedIn(): ReactNode {
  const { data: session } = useSessionQuery();
  const [location] = useLocation();
  const search = useSearch();
  useEffect(() => {
    // Once the first page has had its turn. What fails now is tried again when it is wanted.
    const timer = window.setTimeout(() => void fetchEveryPage().catch(() => undefined), restMs);
    return () => window.clearTimeout(timer);
  }, []);
  if (!session) {
    const place = search === "" ? location : `${location}?${search}`;
    return <Redirect to={paths.signIn(place === "/" ? undefined : place)} replace />;
  }
  setToothNotation(session.practice.toothNotation);
  // Given here again: right after signing in, this is drawn before the whole app has heard of it.
  return (
    <SessionContext value={session}>
      <OwnCodesProvider>
        <ScanProvider>
          <CameraProvider>
            <Shell>
              <Live />
              <Routes />
            </Shell>
            <UntakenScan />
          </CameraProvider>
        </ScanProvider>
      </OwnCodesProvider>
    </SessionContext>
  );
}
