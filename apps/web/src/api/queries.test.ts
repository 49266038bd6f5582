import { expect, test } from "@jest/globals";
import { keyOf, makeQueryClient, showAnswer } from "./queries.ts";

test("the answer of a write stays, though a read that began before it ends after it", async () => {
  const queries = makeQueryClient();
  const key = keyOf("getRecord", { params: { recordId: "1" } });
  queries.setQueryData(key, "at first");
  let end: (older: string) => void = () => undefined;
  const older = new Promise<string>((resolve) => (end = resolve));
  const read = queries.fetchQuery({ queryKey: key, staleTime: 0, queryFn: () => older });
  showAnswer(queries, key, "as written");
  end("as it was before the write");
  await read;
  expect(queries.getQueryData(key)).toBe("as written");
  queries.clear();
});
