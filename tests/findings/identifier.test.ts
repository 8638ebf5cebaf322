/** What counts as an identifier in free text, and what must not. All names, numbers and addresses are made up. */
import { describe, expect, test } from "vitest";
import { identifiersIn, labelFault } from "../../server/findings/identifier-patterns.ts";

test("one number is told once, whichever words stand before it", () => {
  expect(identifiersIn("tel +44 20 7946 0000")).toHaveLength(1);
  expect(identifiersIn("zip code ABC and MRN ab1")).toEqual([]);
});

describe("found in free text", () => {
  test.each([
    ["Seen with Mrs Examplewoman today", "a name", "Examplewoman"],
    ["Dr. A. Sample-Smith referred", "a name", "A. Sample-Smith"],
    ["Frau Müller bittet um Rückruf", "a name", "Müller"],
    ["patient: John Sampleman, fell", "a name", "John Sampleman"],
    ["Patient John Sampleman fell", "a name", "John Sampleman"],
    ["born 12.03.1984", "a date", "12.03.1984"],
    ["DOB 03/12/84", "a date", "03/12/84"],
    ["operated 2024-03-05 at night", "a date", "2024-03-05"],
    ["operated on 5 March 2024", "a date", "5 March 2024"],
    ["operated on March 5th, 2024", "a date", "March 5th, 2024"],
    ["call 555-0134 or come", "a telephone number", "555-0134"],
    ["tel. 0123 456789", "a telephone number", "0123 456789"],
    ["reach at +49 30 1234567", "a telephone number", "+49 30 1234567"],
    ["(555) 555-0134", "a telephone number", "(555) 555-0134"],
    ["write to ward.seven@hospital.example", "an e-mail address", "ward.seven@hospital.example"],
    ["MRN 00412-7", "a record number", "00412-7"],
    ["medical record number: A12345", "a record number", "A12345"],
    ["hospital no. 4711", "a record number", "4711"],
    ["078-05-1120", "a social security number", "078-05-1120"],
    ["serial no. TX99812", "a serial or lot number", "TX99812"],
    ["lot #88121", "a serial or lot number", "88121"],
    ["S/N 4412A", "a serial number", "4412A"],
    ["zip code 12345", "a postal code", "12345"],
    ["image store at 10.20.30.40", "an internet address", "10.20.30.40"],
    ["case 20240317001", "a long number as records have", "20240317001"],
    ["a 93-year-old", "an age above 89 years", "93-year-old"],
    ["aged 91", "an age above 89 years", "aged 91"],
  ])("%s: %s", (text, what, stretch) => {
    const found = identifiersIn(text);
    expect(found.map((each) => [each.what, text.slice(each.start, each.end)])).toEqual([[what, stretch]]);
  });

  test("a date keeps its year", () => {
    expect(identifiersIn("2024-03-05")[0]?.instead).toBe("2024");
    expect(identifiersIn("5 March 2024")[0]?.instead).toBe("2024");
    expect(identifiersIn("03/12/84")[0]?.instead).toBeUndefined();
  });

  test("several in one text stand in order", () => {
    const found = identifiersIn("Mr Sample, born 12.03.1984, sample@ward.example");
    expect(found.map((each) => each.what)).toEqual(["a name", "a date", "an e-mail address"]);
  });
});

describe("not found", () => {
  test.each([
    "TN-0417",
    "Chatter starts at the isthmus; let the reamer do the work.",
    "Freedman & Johnson, Clin Orthop 1995;315:25",
    "McQueen & Court-Brown, J Bone Joint Surg Br 1996;78-B:99-104",
    "doi 10.1016/s0020-1383(98)80058-2 and 10.1302/0301-620x.84b4.12563",
    "https://example.org/2024/03/05/4711000 shows it",
    "PMC12127010",
    "[@giannoudis2002] measured 51.6 °C in 34 patients",
    "from 208 mm to 232 mm, 8.5-9-9.5 mm heads",
    "weight-bearing 20 kg until 6 weeks, then 12 weeks",
    "The nail stops at 345 mm; a lot of reaming follows.",
    "a lot 300 mm longer",
    "Patient supine, leg free",
    "The patient may bear weight on the leg.",
    "aged 34, 89-year-old",
    "2018 compendium, 2007 spelling 42-A2",
    "Invented for examples. Not an implant on any market.",
    "Ti-6Al-4V, 110 GPa",
    "call the image intensifier at step 3",
    "Protocol 2.1.3",
    "the device number of the reamer head",
    "hospital number of beds",
    "ratio 10/11/12",
  ])("%s", (text) => {
    expect(identifiersIn(text).map((each) => [each.what, text.slice(each.start, each.end)])).toEqual([]);
  });

  test("names and dates where a person signs, but not the rest", () => {
    expect(identifiersIn("Dr A. Sample, 2024-03-05", true)).toEqual([]);
    expect(identifiersIn("Dr A. Sample, sample@ward.example", true).map((each) => each.what)).toEqual([
      "an e-mail address",
    ]);
  });
});

describe("labels of a case", () => {
  test.each(["TN-0417", "HB-2203", "A1", "case-12", "Teaching Case", "left-tibia", "Case-Two", "T-2026", "EX-2019-04"])(
    "%s is a pseudonym",
    (label) => {
      expect(labelFault(label)).toBeUndefined();
    },
  );

  test.each([
    ["Sampleman-John", "a name"],
    ["John Sampleman", "a name"],
    ["1984-03-12", "a date"],
    ["P19840312", "a number as records have"],
    ["4711-0815", "a number as records have"],
  ])("%s looks like %s", (label, what) => {
    expect(labelFault(label)).toBe(what);
  });
});

/** The least of three times, in ms: what other programs on the machine take does not count. */
function searched(text: string): number {
  const times = Array.from({ length: 3 }, () => {
    const began = performance.now();
    identifiersIn(text);
    return performance.now() - began;
  });
  return Math.min(...times);
}

test.each(["1", "1-", "a@", "Mr A ", "1.", "(1", "tel ", "MRN -", "patient A"])(
  "searching %s over and over takes no more than in proportion to its length",
  (piece) => {
    // Five times the text; by the square of the length it would take twenty-five times as long.
    const [short, long] = [5000, 25_000].map((length) => searched(piece.repeat(Math.ceil(length / piece.length))));
    expect(long ?? Number.POSITIVE_INFINITY).toBeLessThan(12 * (short ?? 0) + 20);
  },
);

test("a text is searched alike after thousands of others", () => {
  const text = "Seen with Mrs Examplewoman today";
  const before = identifiersIn(text);
  for (let at = 0; at <= 2000; at++) expect(identifiersIn(`note ${at} of none`)).toEqual([]);
  expect(identifiersIn(text)).toEqual(before);
  expect(before).toHaveLength(1);
});
