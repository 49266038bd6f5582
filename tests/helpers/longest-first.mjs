// Begins with what takes longest, so that no worker is left alone with it at the end: the journeys
// in a browser, then what starts servers of its own, then the rest by size as Jest does.
import Sequencer from "@jest/test-sequencer";

const slow = ["tests/browser/pages", "tests/browser/", "tests/crash/", "tests/api/", "tests/"];
const rankOf = (path) => {
  const rank = slow.findIndex((part) => path.replaceAll("\\", "/").includes(`/${part}`));
  return rank === -1 ? slow.length : rank;
};

export default class LongestFirst extends Sequencer {
  async sort(tests) {
    const bySize = [...(await super.sort(tests))];
    return bySize.sort((one, other) => rankOf(one.path) - rankOf(other.path));
  }
}
