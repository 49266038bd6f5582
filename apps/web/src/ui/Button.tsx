import type { ButtonHTMLAttributes, ReactNode } from "react";
import { Link } from "wouter";

/** `main`: the one thing this page is for. `quiet`: without a frame. `danger`: cannot be undone. */
export type ButtonKind = "main" | "plain" | "quiet" | "danger";

interface ButtonProps extends ButtonHTMLAttributes<HTMLButtonElement> {
  kind?: ButtonKind;
  /** It is being done: shows so, and a second tap does nothing. */
  busy?: boolean;
}

export function Button({ kind = "plain", busy = false, ...rest }: ButtonProps): ReactNode {
  const { className = "", onClick, type = "button", ...others } = rest;
  return (
    <button
      {...others}
      type={type}
      className={`button ${kind} ${className}`}
      aria-busy={busy}
      onClick={(event) => {
        if (busy) event.preventDefault();
        else onClick?.(event);
      }}
    />
  );
}

interface LinkButtonProps {
  to: string;
  kind?: ButtonKind;
  className?: string;
  children: ReactNode;
}

/** A link that looks like a button: it leads somewhere and changes nothing. */
export function LinkButton({ to, kind = "plain", className = "", children }: LinkButtonProps) {
  return (
    <Link to={to} className={`button ${kind} ${className}`}>
      {children}
    </Link>
  );
}
