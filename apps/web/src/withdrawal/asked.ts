/** What a trace is asked for: the question stands in the page's address. */
export interface Asked {
  lot?: string;
  identifier?: string;
  container?: string;
}
