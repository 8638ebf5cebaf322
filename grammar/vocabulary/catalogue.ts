/**
 * A catalogue: nails with their holes, screw families and reamers, as far as a plan needs their sizes.
 */
import {
  after,
  angle,
  choice,
  clause,
  declares,
  either,
  led,
  length,
  lengths,
  many,
  names,
  needed,
  one,
  pressure,
  text,
} from "./parts.ts";
import type { BlockRule, StatementRule } from "./rule.ts";

export const catalogueRule: BlockRule = {
  name: "catalogue",
  doc: "A set of nails, screws and reamers.",
  statements: [
    {
      word: "notice",
      doc: "Where the figures come from: that they are invented, or which document they were typed from and by whom.",
      slots: [one("text", text, "The notice, shown wherever the catalogue is used.")],
      clauses: [],
      times: "one",
      example: 'notice "Invented for examples. Not an implant on any market."',
    },
    {
      word: "nail",
      doc: "One nail in all its diameters and lengths.",
      slots: [one("name", declares("nail"), "The name plans choose it by.")],
      clauses: [],
      times: "many",
      block: "nail",
      example: "nail fenwick {",
    },
    {
      word: "screws",
      doc: "One family of locking screws.",
      slots: [one("name", declares("screws"), "The name holes and plans choose it by.")],
      clauses: [],
      times: "many",
      block: "screws",
      example: "screws peg {",
    },
    {
      word: "reamers",
      doc: "The reamer heads of the set.",
      slots: [],
      clauses: [],
      times: "optional",
      block: "reamers",
      example: "reamers {",
    },
  ],
};

const holeRule: StatementRule = {
  word: "hole",
  doc: "A locking hole of the nail: where it lies, which way it runs, which screws it takes.",
  slots: [one("name", declares("hole"), "The name plans lock it by.")],
  clauses: [
    clause("top", "Its distance from the driving end.", one("distance", length, "To the middle of the hole.")),
    clause("tip", "Its distance from the tip.", one("distance", length, "To the middle of the hole.")),
    needed(
      "runs",
      "Which way a screw runs through it.",
      one(
        "direction",
        choice({
          "medial-lateral": "From side to side.",
          "anterior-posterior": "From front to back.",
          oblique: "At an angle between the two.",
        }),
        "The direction.",
      ),
      after(["oblique"], one("angle", angle, "The angle from medial-lateral.")),
    ),
    clause("tilt", "The angle to the plane across the nail.", one("angle", angle, "The tilt.")),
    clause("slot", "An oval hole, in which a screw can travel.", one("travel", length, "The screw's travel.")),
    needed("takes", "The screw families it takes.", many("families", names("screws"), "One or more families.")),
  ],
  alternatives: { ways: [["top"], ["tip"]], needed: true },
  times: "many",
  example: "hole P2, top 28 mm, runs medial-lateral, slot 6 mm, takes peg",
};

const bone = choice({ tibia: "The shin bone.", femur: "The thigh bone.", humerus: "The upper arm bone." });
const material = choice({ "titanium-alloy": "A titanium alloy.", steel: "Stainless implant steel." });

export const nailRule: BlockRule = {
  name: "nail",
  doc: "One nail: its bone, sizes, holes and what it can do.",
  statements: [
    {
      word: "for",
      doc: "The bone the nail is made for.",
      slots: [one("bone", bone, "Which bone.")],
      clauses: [],
      times: "one",
      example: "for tibia",
    },
    {
      word: "material",
      doc: "What the nail is made of.",
      slots: [one("material", either(material, text), "One of the words, or a text for another material.")],
      clauses: [],
      times: "optional",
      example: "material titanium-alloy",
    },
    {
      word: "modulus",
      doc: "Young's modulus of the material.",
      slots: [one("modulus", pressure, "The modulus.")],
      clauses: [],
      times: "optional",
      example: "modulus 110 GPa",
    },
    {
      word: "diameters",
      doc: "The diameters the nail comes in.",
      slots: [many("diameters", lengths, "Each diameter, or a range with its step.")],
      clauses: [],
      times: "one",
      example: "diameters 9 mm to 12 mm by 1 mm",
    },
    {
      word: "lengths",
      doc: "The lengths the nail comes in.",
      slots: [many("lengths", lengths, "Each length, or a range with its step.")],
      clauses: [],
      times: "one",
      example: "lengths 240 mm to 420 mm by 15 mm",
    },
    {
      word: "bore",
      doc: "The diameter of the hollow through the nail.",
      slots: [one("diameter", length, "The bore.")],
      clauses: [],
      times: "optional",
      example: "bore 5 mm",
    },
    {
      word: "driving-end",
      doc: "The thicker part at the driving end.",
      slots: [one("diameter", length, "Its diameter.")],
      clauses: [needed("along", "How far it goes down the nail.", one("length", length, "From the driving end."))],
      times: "optional",
      example: "driving-end 12 mm, along 55 mm",
    },
    {
      word: "bend",
      doc: "The bend near the driving end.",
      slots: [one("angle", angle, "The angle of the bend.")],
      clauses: [needed("at", "Where the bend lies.", one("distance", length, "From the driving end."))],
      times: "optional",
      example: "bend 10 deg, at 50 mm",
    },
    holeRule,
    {
      word: "compression",
      doc: "The compression screw inside the nail.",
      slots: [],
      clauses: [
        needed("travel", "How far it can close a fracture.", one("travel", length, "The most it travels.")),
        needed("pitch", "How far it travels in one turn.", one("pitch", length, "The travel of one turn.")),
      ],
      times: "optional",
      example: "compression travel 6 mm, pitch 1.25 mm",
    },
    {
      word: "caps",
      doc: "The extensions the end caps come in.",
      slots: [many("extensions", lengths, "Each extension, or a range with its step.")],
      clauses: [],
      times: "optional",
      example: "caps 0 mm, 5 mm, 10 mm, 15 mm",
    },
    {
      word: "fits",
      doc: "The fractures the nail is meant for.",
      slots: [many("codes", { kind: "code", bones: "main" }, "AO/OTA 2018 codes.")],
      clauses: [],
      times: "optional",
      example: "fits 42A1, 42A2, 42A3",
    },
  ],
};

export const screwsRule: BlockRule = {
  name: "screws",
  doc: "One family of screws: thread, core, drill and lengths.",
  statements: [
    {
      word: "thread",
      doc: "The outer diameter of the thread.",
      slots: [one("diameter", length, "The outer diameter.")],
      clauses: [],
      times: "one",
      example: "thread 4.6 mm",
    },
    {
      word: "core",
      doc: "The diameter of the core, which carries the load.",
      slots: [one("diameter", length, "The core diameter.")],
      clauses: [],
      times: "one",
      example: "core 3.9 mm",
    },
    {
      word: "drill",
      doc: "The drill that goes with the screw.",
      slots: [one("diameter", length, "The drill's diameter.")],
      clauses: [],
      times: "one",
      example: "drill 3.8 mm",
    },
    {
      word: "lengths",
      doc: "The lengths the screw comes in.",
      slots: [many("lengths", lengths, "Each length, or ranges with their steps.")],
      clauses: [],
      times: "one",
      example: "lengths 24 mm to 60 mm by 2 mm, 65 mm to 90 mm by 5 mm",
    },
    {
      word: "with",
      doc: "The nail diameters the screw goes with; all of them when left out.",
      slots: [led("diameters", many("diameters", lengths, "Each nail diameter, or a range with its step."))],
      clauses: [],
      times: "optional",
      example: "with diameters 9 mm, 10 mm",
    },
  ],
};

export const reamersRule: BlockRule = {
  name: "reamers",
  doc: "The reamer heads of the set.",
  statements: [
    {
      word: "heads",
      doc: "The diameters the reamer heads come in.",
      slots: [many("heads", lengths, "Each diameter, or ranges with their steps.")],
      clauses: [],
      times: "one",
      example: "heads 8 mm to 14 mm by 0.5 mm",
    },
    {
      word: "front-cutting",
      doc: "The heads that cut at their front, with which reaming begins.",
      slots: [many("heads", lengths, "Their diameters.")],
      clauses: [],
      times: "optional",
      example: "front-cutting 8 mm, 8.5 mm",
    },
  ],
};
