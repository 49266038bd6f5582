/** The one-time code printed on the console of an installation that has no practice yet. */
export class SetUpCode {
  constructor(readonly code: string | null) {}
}
