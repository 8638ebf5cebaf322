/** From a path on the command line to an analysis: the file itself is read as named, its imports only inside the library's folder. */
import { dirname } from "node:path";
import { type Analysis, analyse, libraryOver } from "../answers/analyse.ts";
import { type FileRead, libraryRoot, readInside, readNamed, readStandardInput } from "../files/disk.ts";
import type { Library } from "../meaning/library.ts";

export type Examined =
  | { readonly kind: "analysed"; readonly name: string; readonly analysis: Analysis; readonly library: Library }
  | { readonly kind: "unreadable"; readonly name: string; readonly because: string };

export type Examine = (path: string) => Examined;

/** One examiner a run, so that a catalogue shared by many plans is parsed once. `-` is standard input under `standardName`. */
export function examiner(standardName = "standard-input.isthmus"): Examine {
  const libraries = new Map<string, Library>();
  const libraryFor = (file: string): Library => {
    const root = libraryRoot(file);
    let library = libraries.get(root);
    if (library === undefined) {
      // Read once a run: all plans of a run are then held to one state of their catalogue, and a shared one costs one reading.
      const reads = new Map<string, FileRead>();
      library = libraryOver((from, path) => {
        const key = `${dirname(from)}\0${path}`;
        const read = reads.get(key) ?? readInside(root, from, path);
        reads.set(key, read);
        return read;
      });
      libraries.set(root, library);
    }
    return library;
  };
  return (path) => {
    const read = path === "-" ? readStandardInput() : readNamed(path);
    const name = path === "-" ? standardName : path;
    if (read.kind !== "read") return { kind: "unreadable", name, because: read.because };
    const file = path === "-" ? standardName : read.file;
    const library = libraryFor(file);
    return { kind: "analysed", name, analysis: analyse(file, read.text, library), library };
  };
}
