/** One seed for all laws and no search for a smaller counterexample: what counts is whether a mutant is noticed. */
import fc from "fast-check";
import { runs } from "../runs.ts";

fc.configureGlobal({ seed: 20_250_101, endOnFailure: true, numRuns: runs(200) });
