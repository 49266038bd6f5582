import { QueryClientProvider } from "@tanstack/react-query";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { makeQueryClient } from "./api/queries.ts";
import { App } from "./App.tsx";
import { openOutbox } from "./outbox/OutboxProvider.tsx";
import { readAppearance, showAppearance } from "./shell/appearance.ts";
import { LanguageProvider, loadFirstTexts } from "./texts/Texts.tsx";
import "./style.css";
import "./ui/ui.css";
import "./ui/lists.css";
import "./ui/findings.css";
import "./ui/overlays.css";
import "./shell/shell.css";

showAppearance(readAppearance());
const [outbox, language] = await Promise.all([openOutbox(), loadFirstTexts()]);
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
