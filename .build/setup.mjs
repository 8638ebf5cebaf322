// Brings the development dependencies in when they are absent or older than the lock file. Plain JavaScript for any Node
// from 18 on, because it runs before Node 24 is here.
import { fileURLToPath } from "node:url";
import { install } from "./install.mjs";

install(fileURLToPath(new URL("..", import.meta.url)), "", "a minute or two");
