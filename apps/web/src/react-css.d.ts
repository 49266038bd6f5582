import "react";

declare module "react" {
  /** Custom properties may be set like any other. */
  interface CSSProperties {
    [name: `--${string}`]: string | number | undefined;
  }
}
