/** What a person is told when the work cannot begin, without a trace of the program's inside. */
export class StartRefused extends Error {
  override name = "StartRefused";
}
