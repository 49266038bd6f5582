import { QueryClientProvider } from "@tanstack/react-query";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { makeQueryClient } from "./api/queries.ts";
import { App } from "./App.tsx";
import { openOutbox } from "./outbox/OutboxProvider.tsx";
import { fetchPageAt } from "./routes.tsx";
import { readAppearance, showAppearance } from "./shell/appearance.ts";
import { LanguageProvider, loadFirstTexts } from "./texts/Texts.tsx";
import "./style.css";
import "./ui/ui.css";
import "./ui/lists.css";
import "./ui/findings.css";
import "./ui/overlays.css";
import "./ui/desk.css";
import "./shell/shell.css";

showAppearance(readAppearance());
// What does not come now is asked for again when it is wanted.
const firstPage = fetchPageAt(location.pathname).catch(() => undefined);
const [outbox, language] = await Promise.all([openOutbox(), loadFirstTexts(), firstPage]);
const root = document.getElementById("root");
if (root === null) throw new Error("the page has no place to show anything in");
createRoot(root).render(
  <StrictMode>
    <LanguageProvider first={language}>
      <QueryClientProvider client={makeQueryClient()}>
        <App outbox={outbox} />
      </QueryClientProvider>
    </LanguageProvider>
  </StrictMode>,
);
