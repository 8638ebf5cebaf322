/** A nail's length from an estimate alone: its spread against the step between the listed lengths. */
import { describe } from "vitest";
import { noCatalogue } from "./changes.ts";
import { type Change, checkTable } from "./table.ts";

const scar: Change = ["    landmark scar 416 mm ± 2 mm on ap\n", ""];

/** No landmark at the far end; the length of the nail is read instead. */
const estimated = (length: string): readonly Change[] => [
  scar,
  ["    landmark plafond 432 mm ± 2 mm on ap\n", `    nail-length ${length}\n`],
];

describe("an estimate of the length", () => {
  checkTable("nail-length-estimate", [
    { what: "landmarks at the far end", change: [], is: "clear" },
    { what: "a spread of 14 mm, the step is 15 mm", change: estimated("348 mm ± 14 mm"), is: "clear" },
    { what: "a spread of 15 mm, the step itself", change: estimated("348 mm ± 15 mm"), is: "clear" },
    {
      what: "a spread of 16 mm",
      change: estimated("348 mm ± 16 mm"),
      is: "warning",
      at: "348 mm ± 16 mm",
      says: "rests on 348 mm ± 16 mm alone, wider than the step of 15 mm between lengths: 345 mm and 360 mm lie inside it.",
    },
    // LEN-5: 340 mm with the printed root mean square error of 10.84 mm, BMC Musculoskelet Disord 2025;26:395 (computed).
    {
      what: "340 mm with the spread of an external estimate",
      change: estimated("340 mm ± 21.68 mm"),
      is: "warning",
      says: "330 mm, 345 mm and 360 mm lie inside it.",
    },
    {
      what: "more lengths than are worth listing",
      change: estimated("330 mm ± 60 mm"),
      is: "warning",
      says: "9 listed lengths lie inside it.",
    },
    {
      what: "a second landmark bears it out",
      change: [scar, ["    canal at 60 mm", "    nail-length 348 mm ± 22 mm\n    canal at 60 mm"]],
      is: "clear",
    },
    { what: "no ± given", change: estimated("348 mm"), is: "cannot tell" },
    {
      what: "neither landmark nor length",
      change: [scar, ["    landmark plafond 432 mm ± 2 mm on ap\n", ""]],
      is: "cannot tell",
    },
    { what: "no catalogue", change: [...estimated("348 mm ± 22 mm"), noCatalogue], is: "cannot tell" },
  ]);
});
