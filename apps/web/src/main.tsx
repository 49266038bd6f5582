import { QueryClientProvider } from "@tanstack/react-query";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { makeQueryClient } from "./api/queries.ts";
import { App } from "./App.tsx";
import { openOutbox } from "./outbox/OutboxProvider.tsx";
import { readAppearance, showAppearance } from "./shell/appearance.ts";
import { LanguageProvider } from "./texts/Texts.tsx";
import "./style.css";
import "./ui/ui.css";
import "./shell/shell.css";

showAppearance(readAppearance());
const outbox = await openOutbox();
const root = document.getElementById("root");
if (root === null) throw new Error("the page has no place to show anything in");
createRoot(root).render(
  <StrictMode>
    <LanguageProvider>
      <QueryClientProvider client={makeQueryClient()}>
        <App outbox={outbox} />
      </QueryClientProvider>
    </LanguageProvider>
  </StrictMode>,
);
