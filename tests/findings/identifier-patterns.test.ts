/** Every form an identifier can be typed in, and the forms beside it that are none. All names, numbers and addresses are made up. */
import { describe, expect, test } from "vitest";
import { identifiersIn, labelFault } from "../../server/findings/identifier-patterns.ts";

/** What is found, as kind and stretch. */
function found(text: string, signed = false): readonly (readonly string[])[] {
  return identifiersIn(text, signed).map(({ what, start, end }) => [what, text.slice(start, end)]);
}

/** Within a sentence, so that what stands around it is met too. */
function foundIn(stretch: string): readonly (readonly string[])[] {
  return found(`noted, ${stretch}, then. On`);
}

const count = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, at) => from + at);
const two = (number: number): string => String(number).padStart(2, "0");
const both = (from: number, to: number): readonly string[] =>
  count(from, to).flatMap((number) => (number < 10 ? [String(number), two(number)] : [String(number)]));

const monthNames = [
  ..."January February March April May June July August September October November December".split(" "),
  ..."Jan Feb Mar Apr Jun Jul Aug Sep Sept Oct Nov Dec".split(" "),
];

describe("dates", () => {
  const lost = (stretches: readonly string[]): readonly string[] =>
    stretches.filter((stretch) => JSON.stringify(foundIn(stretch)) !== JSON.stringify([["a date", stretch]]));

  test("the year first: every month, every day, every sign between them", () => {
    const all = ["-", "/", "."].flatMap((sign) =>
      both(1, 12).flatMap((month) => both(1, 31).map((day) => `2024${sign}${month}${sign}${day}`)),
    );
    expect(lost([...all, "1900-01-01", "1999-12-31", "2099-10-10"])).toEqual([]);
  });

  test("the year last: day and month in either order, a blank after the sign or none", () => {
    const all = ["-", "/", ".", ". ", "/ "].flatMap((sign) =>
      both(1, 31).flatMap((one) => both(1, 31).map((other) => `${one}${sign}${other}${sign}1984`)),
    );
    expect(lost(all)).toEqual([]);
  });

  test.each(["born", "birth", "DOB", "date", "dated", "on", "since", "Born"])(
    "two digits of a year after %s",
    (word) => {
      const dates = ["/", ".", "-"].flatMap((sign) => [
        ...both(1, 31).map((day) => `${day}${sign}12${sign}84`),
        ...both(1, 31).map((month) => `03${sign}${month}${sign}84`),
      ]);
      for (const between of ["", " ", ": ", " : ", ".: "])
        expect(dates.filter((date) => found(`x ${word}${between}${date}, y`)[0]?.[1] !== date)).toEqual([]);
    },
  );

  test("months by name", () => {
    const ends = ["1", "01", "2nd", "3rd", "11th", "1st", "29", "30", "31"];
    const dayFirst = monthNames.flatMap((month) =>
      ends.flatMap((day) => [`${day} ${month} 2024`, `${day} of ${month}, 1999`, `${day}. ${month}. 2024`]),
    );
    const monthFirst = monthNames.flatMap((month) =>
      ends.flatMap((day) => [`${month} ${day}, 2024`, `${month}. ${day} 1999`]),
    );
    expect(lost([...dayFirst, ...monthFirst])).toEqual([]);
  });

  test.each([
    "2024-13-05",
    "2024-00-05",
    "2024-05-00",
    "2024-05-32",
    "1824-05-03",
    "2124-05-03",
    "12024-05-03",
    "1.2024-05-03",
    "1-2024-05-03",
    "2024-05-031",
    "2024-05-03-1",
    "32.12.1984",
    "00.12.1984",
    "12.32.1984",
    "12.00.1984",
    "12.12.1884",
    "112.12.1984",
    "1-12.12.1984",
    "12.12.19841",
    "12.12.1984-1",
    "03/12/84",
    "born 32/12/84",
    "born 03/32/84",
    "born 03/12/845",
    "born 03/12/84-1",
    "born    03/12/84",
    "unborn 03/12/84",
    "32 March 1824",
    "5 Marsh 2024",
    "5 March 1824",
    "March 5, 1824",
    "March 32, 20245",
  ])("%s is none", (stretch) => {
    expect(foundIn(stretch)).toEqual([]);
  });
});

describe("numbers by which somebody is reached or known", () => {
  test.each([
    ..."tel phone telephone mobile cell fax call pager Tel".split(" ").map((word) => [`${word} `, "0123 456789"]),

    ["tel. : ", "+44 (0)20 7946-0000"],
    ["tel ", "01234567 89"],
    ["", "+49 30 1234567"],
    ["", "+1 (555) 555.0134"],
    ["", "+123456789"],
    ["", "(555) 555-0134"],
    ["", "(555)555-0134"],
    ["", "555-555-0134"],
    ["", "555.555.0134"],
    ["", "555 555 0134"],
    ["", "(555) 555 0134"],
  ])("%s%s is a telephone number", (before, stretch) => {
    expect(found(`noted: ${before}${stretch}, then`)).toEqual([["a telephone number", stretch]]);
  });

  test.each([
    "hotel 0123 456789",
    "tel 01234",
    "tel    0123 456789",
    "a+49 30 123 4567",
    "1+49 30 123 4567",
    "+49 301",
    "1555-555-0134",
    "1.555-555-0134",
    "-555-555-0134",
    "555-555-01341",
    "555-555-0134-1",
    "55-555-0134",
    "555-5-0134",
    "(55) 555-0134",
    "555a555-0134",
    "0780-05-1120",
    "078-05-11201",
    "1-078-05-1120",
    "078-05-1120-1",
    "078-5-1120",
    "10.20.30",
    "1.10.20.30.40",
    "1000.20.30.40",
    "10.20.30.4000",
    "10.20.30.40.5",
    "123456",
    "A1234567",
    "-1234567",
    "1.1234567",
    "1234567.5",
  ])("%s is none", (stretch) => {
    expect(foundIn(stretch)).toEqual([]);
  });

  test.each([
    ["a social security number", "", "078-05-1120"],
    ["an internet address", "", "10.20.30.40"],
    ["an internet address", "", "255.255.255.255"],
    ["an internet address", "", "1.2.3.4"],
    ["a long number as records have", "", "1234567"],
    ["a long number as records have", "", "12345678901234567890"],
    ["an e-mail address", "", "a@b-1.ward.example"],
    ["an e-mail address", "", "A.b_c%d+e-9@ward.a.b.c.example"],
    ["a postal code", "zip ", "12345"],
    ["a postal code", "ZIP code: ", "12345-6789"],
    ["a postal code", "postcode ", "SW1A 1AA"],
    ["a postal code", "postal code: ", "K1A 0B1"],
    ["a postal code", "zip", "12345"],
    ["a postal code", "zip ", "12 34"],
    ["a serial or lot number", "lot no ", "A123"],
    ["a serial or lot number", "batch: ", "X-123"],
    ["a serial or lot number", "UDI id ", "0123456789"],
    ["a serial or lot number", "device number ", "77/123"],
    ["a serial number", "S/N: ", "4412A"],
    ["a record number", "PID ", "4711"],
    ["a record number", "health plan number ", "4711"],
    ["a record number", "patient-record no. ", "AB 4711"],
  ])("%s: %s%s", (what, before, stretch) => {
    expect(found(`noted: ${before}${stretch}, then`)).toEqual([[what, stretch]]);
  });

  test.each(["lot no A12", "lot no A12B", "batch: X-1Y-2", "S/N 12A", "PID A12-B", "zip code ABC", "zip    12345"])(
    "%s has too few digits, or none near enough",
    (text) => {
      expect(found(text)).toEqual([]);
    },
  );

  test("without what may stand instead nothing is said of it", () => {
    expect(identifiersIn("tel 0123 456789")).toStrictEqual([{ what: "a telephone number", start: 4, end: 15 }]);
    expect(identifiersIn("2024-03-05")).toStrictEqual([{ what: "a date", start: 0, end: 10, instead: "2024" }]);
  });

  test("two that touch are two", () => {
    expect(found("Dr Mülleä+49 30 1234567")).toEqual([
      ["a name", "Mülleä"],
      ["a telephone number", "+49 30 1234567"],
    ]);
  });
});

describe("ages", () => {
  test.each([
    ...["aged 90", "age 99", "age90", "aged100", "Aged 139"],
    ...["93 years old", "93-years-old", "93 year old", "93-year-old", "93 y/o", "139 years old", "100-y/o"],
  ])("%s is above 89 years", (stretch) => {
    expect(foundIn(stretch)).toEqual([["an age above 89 years", stretch]]);
  });

  test.each(["aged 89", "aged 140", "aged 900", "aged  93", "page 93", "89 years old", "140 years old", "93 years on"])(
    "%s is not told of",
    (stretch) => {
      expect(foundIn(stretch)).toEqual([]);
    },
  );
});

describe("names", () => {
  test.each("Mr Mrs Ms Miss Mx Dr Prof Professor Sir Herr Frau Mme Monsieur Madame Señor Señora Dr. Prof.".split(" "))(
    "after %s",
    (title) => {
      expect(foundIn(`${title} Sampleman`)).toEqual([["a name", "Sampleman"]]);
      expect(foundIn(`${title} Ø. d’Exemple`)).toEqual([["a name", "Ø."]]);
      expect(foundIn(`${title} A. B. Sample-Smith O'Sample`)).toEqual([["a name", "A. B. Sample-Smith O'Sample"]]);
      expect(foundIn(`${title} sampleman`)).toEqual([]);
      expect(foundIn(`x${title} Sampleman`)).toEqual([]);
    },
  );

  test.each(["Prof. Dr. ", "Prof Dr ", "Herr Prof. "])("after %s", (titles) => {
    expect(foundIn(`${titles}Sampleman`)).toEqual([["a name", "Sampleman"]]);
  });

  const words = "patient name surname named called born Patient Name Surname Named Called Born".split(" ");
  test.each(words)("after %s", (word) => {
    for (const between of [" ", " is ", ": ", " = "])
      expect(foundIn(`${word}${between}John Sampleman`)).toEqual([["a name", "John Sampleman"]]);
    expect(foundIn(`${word} Ana María d’Ejemplo`)).toEqual([["a name", "Ana María"]]);
    expect(foundIn(`${word} Ana O’Sample-Smith Ruiz`)).toEqual([]);
    expect(foundIn(`${word} Ana Sample-Smith Ruiz`)).toEqual([["a name", "Ana Sample-Smith Ruiz"]]);
    expect(foundIn(`${word} Sampleman`)).toEqual([]);
    expect(foundIn(`${word} john Sampleman`)).toEqual([]);
    expect(foundIn(`in${word.toLowerCase()} John Sampleman`)).toEqual([]);
    expect(foundIn(`é${word} John Sampleman`)).toEqual([]);
  });

  test("at most four words after a title", () => {
    expect(foundIn("Mr A B C D E")).toEqual([["a name", "A B C D"]]);
  });
});

test.each([
  "2024-03-05",
  "12.03.1984",
  "born 03/12/84",
  "5 March 2024",
  "March 5th, 2024",
  "Dr A. Sample",
  "Name: John Sampleman",
])("%s may stand where a person signs", (text) => {
  expect(found(text)).toHaveLength(1);
  expect(found(text, true)).toEqual([]);
});

describe("the literature", () => {
  test.each([
    "https://example.org/1234567",
    "http://example.org/1234567",
    "doi1234567",
    "doi 1234567",
    "doi: 1234567",
    "doi:x/1234567",
    "10.1016/1234567",
    "10.123456789/1234567",
    "PM1234567",
    "PMC1234567",
    "PMCID: 1234567",
    "PMID 1234567",
    "PMID:1234567",
    "PMC: 1234567",
  ])("%s is cited, and what follows is searched", (cited) => {
    expect(found(`see ${cited} and 7654321`)).toEqual([["a long number as records have", "7654321"]]);
  });

  test.each(["10.123/1234567", "PX 1234567", "dox 1234567", "ftp://1234567", "10.x/1234567"])("%s is not", (text) => {
    expect(found(`see ${text} x`)).toEqual([["a long number as records have", "1234567"]]);
  });
});

describe("labels", () => {
  test.each(["P123-456", "Sampleman", "TNa Sampleman", "John9 Sampleman", "John McSample", "john Sampleman", "A. B9"])(
    "%s is a pseudonym",
    (label) => {
      expect(labelFault(label)).toBeUndefined();
    },
  );

  test.each("Case Plan Teaching Left Tibia Shaft Knee Open Closed Course Study First Exam".split(" "))(
    "Sampleman %s is a pseudonym",
    (word) => {
      expect(labelFault(`Sampleman ${word}`)).toBeUndefined();
    },
  );

  test.each([
    ["P123-4567", "a number as records have"],
    ["Sampleman,  John", "a name"],
    ["John_Sampleman", "a name"],
    ["Jo. Sampleman", "a name"],
    ["Ana María Ejemplo", "a name"],
  ])("%s looks like %s", (label, what) => {
    expect(labelFault(label)).toBe(what);
  });
});
