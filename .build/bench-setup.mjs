// Brings in what Isthmus is measured beside: the packages of tests/bench, when they are absent or older than their lock file.
import { fileURLToPath } from "node:url";
import { install, plainEnvironment } from "./install.mjs";

const folder = fileURLToPath(new URL("../tests/bench/", import.meta.url));
install(folder, " in tests/bench", "half a minute", plainEnvironment());
