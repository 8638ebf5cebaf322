/** What VS Code starts: the bundled language server. */
import { serveClient } from "./serve.ts";

serveClient();
