import { useQuery } from "@tanstack/react-query";
import type { ReactNode } from "react";
import type { Role } from "#domain";
import { getMessages } from "#texts";
import { useWrite } from "../api/queries.ts";
import type { Session } from "../session/session.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { ProblemNote } from "../ui/States.tsx";

interface DemoPerson {
  displayName: string;
  signInName: string;
  password: string;
  roles: readonly Role[];
}

/** The published people of the demonstration, one tap each. */
export function DemoAccounts({ onEnter }: { onEnter: (session: Session) => void }): ReactNode {
  const t = useTexts();
  const { language } = useLanguage();
  const { roles: roleNames } = getMessages(language);
  const signIn = useWrite("signIn", onEnter);
  // Loaded for the demonstration alone; no other installation has these people.
  const people = useQuery({
    queryKey: ["demonstration"],
    queryFn: async () =>
      (await import("../../../../shared/demo-practice.json")).default.people as DemoPerson[],
    staleTime: Number.POSITIVE_INFINITY,
  });
  return (
    <section className="demo-accounts">
      <h2>{t.signIn.demo}</h2>
      {people.data?.map(({ displayName, signInName, password, roles }) => (
        <Button
          key={signInName}
          busy={signIn.isPending}
          onClick={() => signIn.mutate({ body: { signInName, password } })}
        >
          <span>{displayName}</span>
          <span className="hint">{roles.map((role) => roleNames[role]).join(", ")}</span>
        </Button>
      ))}
      <ProblemNote error={signIn.error} />
    </section>
  );
}
