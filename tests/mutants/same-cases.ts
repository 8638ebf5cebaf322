/** No search for a smaller counterexample, and few cases where a law has no number of its own: what counts is whether a mutant is noticed. */
import fc from "fast-check";
import { runs } from "../runs.ts";

fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true, numRuns: runs(200) });
