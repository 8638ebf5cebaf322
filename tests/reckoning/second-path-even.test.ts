/** The other 10,000 random plans of the two paths to every value, their sizes drawn evenly. */
import { test } from "vitest";
import { runs } from "../runs.ts";
import { expectSameValues } from "./second-path.ts";

test("values of 10,000 random plans, sizes spread evenly", { timeout: 240_000 }, () => {
  expectSameValues(runs(10_000), true);
});
