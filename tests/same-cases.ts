/**
 * The same random cases in every run, so that a change is judged by what it changed and not by chance. `ISTHMUS_SEED=any` draws others,
 * as a run at night does; what then fails names its seed, and `ISTHMUS_SEED` with that number repeats it.
 */
import fc from "fast-check";

const asked = process.env.ISTHMUS_SEED;
if (asked !== "any") fc.configureGlobal({ seed: Number(asked ?? 20_250_101) });
