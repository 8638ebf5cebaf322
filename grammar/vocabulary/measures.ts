/**
 * What is read on the images: the views with their scale, and the landmarks and widths along the canal's axis.
 */
import { choice, clause, declares, led, length, level, one } from "./parts.ts";
import type { BlockRule, Part } from "./rule.ts";

const landmark: Part = {
  kind: "declares",
  name: "landmark",
  known: {
    scar: "The scar of the far growth plate, where a nail's tip usually ends.",
    plafond: "The far joint surface of the tibia.",
    joint: "The far joint surface of any bone.",
    "knee-joint": "The near joint surface of the tibia; level 0 when it is not given.",
    "lesser-trochanter": "The lower edge of the lesser trochanter, where the proximal end of the femur ends.",
  },
};

export const imagesRule: BlockRule = {
  name: "images",
  doc: "The views that lengths are read on.",
  statements: [
    {
      word: "view",
      doc: "A view that lengths are read on, with a ball of known size in it or already at true size.",
      slots: [one("name", declares("view"), "How readings name it after `on`.")],
      clauses: [
        clause(
          "marker",
          "A ball of known size in the plane of the bone.",
          one("size", length, "The ball's true size."),
        ),
        clause("seen", "The size of the ball on the image.", one("size", length, "The ball's size as read.")),
        clause("true-size", "Lengths on this view need no correction: a CT, or a ruler in the plane of the bone."),
      ],
      alternatives: { ways: [["marker", "seen"], ["true-size"]], needed: true },
      times: "many",
      example: "view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm",
    },
  ],
};

export const measuresRule: BlockRule = {
  name: "measures",
  doc: "The readings along the canal's axis, from the entry point (level 0) to the far end.",
  statements: [
    {
      word: "landmark",
      doc: "Names a level along the canal's axis.",
      slots: [one("name", landmark, "The landmark's name."), one("level", level, "Its level.")],
      clauses: [],
      times: "many",
      example: "landmark scar 416 mm ± 2 mm on ap",
    },
    {
      word: "canal",
      doc: "The inner width of the bone at one level.",
      slots: [led("at", one("level", level, "Where it was read."))],
      clauses: [
        clause("width", "The canal from side to side.", one("width", length, "Its width.")),
        clause("depth", "The canal from front to back.", one("depth", length, "Its depth.")),
      ],
      alternatives: { ways: [["width"], ["depth"]], needed: true, together: true },
      times: "many",
      example: "canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral",
    },
    {
      word: "bone",
      doc: "The outer width of the bone at one level.",
      slots: [led("at", one("level", level, "Where it was read."))],
      clauses: [
        clause("width", "The bone from side to side.", one("width", length, "Its width.")),
        clause("depth", "The bone from front to back.", one("depth", length, "Its depth.")),
      ],
      alternatives: { ways: [["width"], ["depth"]], needed: true, together: true },
      times: "many",
      example: "bone at 205 mm, width 26 mm on ap, depth 29 mm on lateral",
    },
    {
      word: "epiphysis",
      doc: "The widest part of an end of the bone, for the rule of squares: both ends of a tibia, the far end of others.",
      slots: [
        one("end", choice({ proximal: "The near end.", distal: "The far end." }), "Which end."),
        one("width", length, "Its widest part."),
      ],
      clauses: [],
      times: "many",
      example: "epiphysis distal 58 mm on ap",
    },
    {
      word: "nail-length",
      doc: "The nail length read directly: with a ruler, or from the guide wire left outside.",
      slots: [one("length", length, "The length as read.")],
      clauses: [],
      times: "optional",
      example: "nail-length 900 mm - 548 mm",
    },
  ],
};
