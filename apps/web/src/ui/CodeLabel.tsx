import type { ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import { paths } from "../paths.ts";

/** A container's short code, leading to its life story. */
export function CodeLabel({ id, code }: { id: string; code: string }): ReactNode {
  return (
    <Link to={paths.container(id)} className="code-label">
      {showContainerCode(code)}
    </Link>
  );
}
