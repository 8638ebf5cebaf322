/**
 * The texts the tests of this folder understand: a whole invented plan with its invented catalogue and protocol, a library that
 * holds them in memory, and short ways to ask. It asserts nothing.
 */
import { parse } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import { type Library, libraryOfTexts, type OpenedText } from "../../server/meaning/library.ts";
import type { Catalogue, Plan, Protocol, Typed } from "../../server/meaning/plan.ts";
import { type Meaning, understand } from "../../server/meaning/understand.ts";
import { print } from "../../server/quantity/print.ts";

export const planText = `isthmus 1

plan "Oblique fracture of the left tibial shaft" {
  use "catalogue/fenwick.isthmus"
  follow "protocol/teaching-hospital.isthmus"
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

export const catalogueText = `isthmus 1

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

export const protocolText = `isthmus 1

protocol "An invented teaching department" {
  limit sagittal up-to 10 deg, because "our alignment profile"
  limit tip-beyond-cortex 0 mm to 2 mm
  grade cap-missing warning
  demand time-out, antibiotic
}
`;

export const planFile = "plans/plan.isthmus";

/** A library over texts by path; a path that climbs lies outside, one that ends in a slash is no file. */
export function libraryOf(texts: ReadonlyMap<string, string>): Library {
  const openText = (_from: string, path: string): OpenedText => {
    if (path.startsWith("..")) {
      return { kind: "outside", because: "it lies outside the library" };
    }
    if (path.endsWith("/")) {
      return { kind: "not-a-file", because: "it is a folder" };
    }
    const text = texts.get(path);
    return text === undefined
      ? { kind: "missing", because: "there is no such file" }
      : { kind: "read", file: path, text };
  };
  return libraryOfTexts(openText);
}

export const library = libraryOf(
  new Map([
    ["catalogue/fenwick.isthmus", catalogueText],
    ["protocol/teaching-hospital.isthmus", protocolText],
    ["references.bib", "@article{one1996, title = {One}}\n"],
    [planFile, planText],
  ]),
);

export function meaningOf(text: string, from: Library = library): Meaning {
  return understand(parse(text), planFile, from);
}

export function understoodPlan(text: string, from: Library = library): Plan {
  const { document } = meaningOf(text, from);
  if (document?.kind !== "plan") {
    throw new Error(`no plan but ${document?.kind ?? "nothing"} was understood`);
  }
  return document;
}

export function understoodCatalogue(text: string): Catalogue {
  const { document } = meaningOf(text);
  if (document?.kind !== "catalogue") {
    throw new Error(`no catalogue but ${document?.kind ?? "nothing"} was understood`);
  }
  return document;
}

export function understoodProtocol(text: string): Protocol {
  const { document } = meaningOf(text);
  if (document?.kind !== "protocol") {
    throw new Error(`no protocol but ${document?.kind ?? "nothing"} was understood`);
  }
  return document;
}

/** The plan's text with one passage replaced; the passage must stand there. */
export function planWith(passage: string, replacement: string): string {
  if (!planText.includes(passage)) {
    throw new Error(`the plan has no passage ${passage}`);
  }
  return planText.replace(passage, () => replacement);
}

/** "361.74 mm ± 3.06 mm", or why it is not known. */
export function shown(typed: Typed | undefined, unit = "mm"): string {
  if (typed === undefined) {
    return "not given";
  }
  return typed.quantity.kind === "known" ? print(typed.quantity, unit) : `unknown: ${typed.quantity.because}`;
}

/** All problems of a text, of the text itself too, as "slug what-stands-there". */
export function problemsOf(text: string, from: Library = library): readonly string[] {
  const parsed = parse(text);
  const { problems } = understand(parsed, planFile, from);
  return [...parsed.problems, ...problems].map((problem) => problemText(text, problem));
}

export function problemText(text: string, problem: Problem): string {
  return `${problem.slug} ${text.slice(problem.span.start, problem.span.end)}`.trim();
}
