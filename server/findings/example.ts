/**
 * The invented plan, catalogue and protocol that the `wrong` and `right` examples of the rules are changes of, and the text an
 * example stands for. Nothing is read from a disk; nothing here describes a product or a patient.
 */
import { type Library, libraryOfTexts } from "../meaning/library.ts";
import type { Example } from "./finding.ts";

/** The files an example is made of. */
const exampleFile = "plan.isthmus";
const catalogueFile = "catalogue/fenwick.isthmus";
const protocolFile = "protocol/teaching.isthmus";
const bibliographyFile = "references.bib";
const files = [exampleFile, catalogueFile, protocolFile, bibliographyFile] as const;
type Texts = Record<(typeof files)[number], string>;

export const examplePlan = `isthmus 1

plan "Oblique fracture of the left tibial shaft, invented" {
  use "catalogue/fenwick.isthmus"
  follow "protocol/teaching.isthmus"
  status for-review

  case TN-0417 {
    side left
    bone tibia
    age 34 years
    growth-plates closed
    bone-quality good
    weight 78 kg
    knee-flexion 120 deg
    soft-tissue closed C1
    fracture 42A2, from 208 mm on ap to 232 mm on ap, gap 3 mm ± 1 mm, fibula 4F2A
    alignment coronal 9 deg varus, sagittal 6 deg procurvatum, rotation 12 deg external, short 8 mm
  }

  images {
    view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm
    view lateral, marker 25 mm, seen 29 mm ± 0.2 mm
  }

  measures {
    landmark scar 416 mm ± 2 mm on ap
    landmark plafond 432 mm ± 2 mm on ap
    epiphysis proximal 88 mm on ap
    epiphysis distal 58 mm on ap
    canal at 60 mm, width 27 mm on ap, depth 24 mm on lateral
    canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral
    canal at 330 mm, width 24 mm on ap, depth 21 mm on lateral
    bone at 30 mm, width 62 mm on ap, depth 50 mm on lateral
    bone at 205 mm, width 26 mm on ap, depth 29 mm on lateral
    bone at 340 mm, width 36 mm on ap, depth 37 mm on lateral
  }

  operation {
    prepare antibiotic, time-out
    position supine, table radiolucent, support distal-thigh, knee 100 deg
    reduce closed, using traction
    enter infrapatellar, from-midline 8 mm lateral
    wire ball-tip
    ## Chatter starts at the isthmus; let the reamer do the work.
    ream 8.5 mm to 11 mm by 0.5 mm
    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm
    check ap, lateral
    lock D2, drilled 31 mm, screw 32 mm
    lock D1, drilled 33 mm, screw 34 mm
    lock P2, drilled 53 mm, screw 54 mm
    compress 2 turns
    lock P1, drilled 51 mm, screw 52 mm
    cap 5 mm
    check ap, lateral, rotation
  }

  fallback "the 10 mm nail stops at the isthmus" {
    ream 8.5 mm to 11.5 mm by 0.5 mm
  }

  aftercare {
    weight-bearing partial 20 kg, until 6 weeks
    watch compartment, diastolic 72 mmHg, pressure 28 mmHg
    review at 2 weeks, 6 weeks, 12 weeks
  }

  removal {
    take cap
    attach extractor
    take D1, D2, P2
    take P1
    withdraw nail
  }
}
`;

export const exampleCatalogue = `isthmus 1

catalogue "Fenwick, an invented set" {
  notice "Invented for examples. Not an implant on any market."

  nail fenwick {
    for tibia
    material titanium-alloy
    modulus 110 GPa
    diameters 9 mm to 12 mm by 1 mm
    lengths 240 mm to 420 mm by 15 mm
    bore 5 mm
    hole P2, top 28 mm, runs medial-lateral, slot 6 mm, takes peg
    hole P1, top 40 mm, runs medial-lateral, takes peg
    hole D2, tip 26 mm, runs medial-lateral, takes peg
    hole D1, tip 12 mm, runs medial-lateral, takes peg
    compression travel 6 mm, pitch 1.25 mm
    caps 0 mm, 5 mm, 10 mm, 15 mm
    fits 42A1, 42A2, 42A3, 42B2, 42B3, 42C2, 42C3
  }

  screws peg {
    thread 4.6 mm
    core 3.9 mm
    drill 3.8 mm
    lengths 24 mm to 60 mm by 2 mm, 65 mm to 90 mm by 5 mm
  }

  reamers {
    heads 8 mm to 14 mm by 0.5 mm
    front-cutting 8 mm, 8.5 mm
  }
}
`;

export const exampleProtocol = `isthmus 1

protocol "An invented teaching department" {
  limit sagittal up-to 10 deg, because "our alignment profile"
  limit tip-beyond-cortex 0 mm to 2 mm
  grade cap-missing warning
  demand time-out, antibiotic
}
`;

/** The entry's own figures and words are not read; the key is. */
const exampleBibliography = `@article{leunig1996,
  author = {Leunig, M. and Hertel, R.},
  title = {Thermal necrosis after tibial reaming for intramedullary nail fixation},
  journal = {J Bone Joint Surg Br},
  year = {1996},
  volume = {78},
}
`;

/** The text an example shows: its own, or the plan as changed. */
export function exampleText(example: Example): string {
  return exampleDocument(example).text;
}

/**
 * The document an example is judged as, and the library it is judged in. A change may reach into any of the four texts, and
 * what is judged is the plan that reads them, or the catalogue where the example says so; an example with a text of its own may be
 * of any kind.
 * Throws when a change does not find its words exactly once: a mistake in the rule's file.
 */
export function exampleDocument(example: Example): {
  readonly file: string;
  readonly text: string;
  readonly library: Library;
} {
  const texts: Texts = {
    [exampleFile]: examplePlan,
    [catalogueFile]: exampleCatalogue,
    [protocolFile]: exampleProtocol,
    [bibliographyFile]: exampleBibliography,
  };
  if ("text" in example) {
    texts[exampleFile] = example.text;
  } else {
    for (const [from, to] of example.change) change(texts, from, to);
  }
  const file = "of" in example && example.of === "catalogue" ? catalogueFile : exampleFile;
  return { file, text: texts[file], library: libraryOf(new Map(Object.entries(texts))) };
}

function change(texts: Texts, from: string, to: string): void {
  for (const file of files) {
    const parts = texts[file].split(from);
    if (parts.length === 1) continue;
    if (parts.length > 2) throw new Error(`an example changes words that stand more than once: ${from}`);
    texts[file] = parts.join(to);
    return;
  }
  throw new Error(`an example changes words that stand nowhere: ${from}`);
}

/** A library of texts in memory; paths are kept inside it by having no other place to go. */
function libraryOf(texts: ReadonlyMap<string, string>): Library {
  return libraryOfTexts((_from, path) => {
    if (path.startsWith("/") || path.split("/").includes("..")) {
      return { kind: "outside", because: "the path leaves the folder of the library" };
    }
    const text = texts.get(path);
    return text === undefined
      ? { kind: "missing", because: "there is no such file" }
      : { kind: "read", file: path, text };
  });
}
