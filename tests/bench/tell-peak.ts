/** Loaded before a program that is measured: tells at its end how much memory it held at most. */
import { writeSync } from "node:fs";

process.on("exit", () => writeSync(2, `peak: ${process.resourceUsage().maxRSS} kB\n`));
