/**
 * What an identifier looks like in free text, after the list of 45 CFR 164.514(b)(2)(i): names, dates, telephone numbers, e-mail
 * addresses, record and serial numbers. Patterns only; where they are looked for, and what is said, stands in `identifier.ts`.
 * Every pattern is linear: no repeated group holds another repetition that can match the same character.
 */

export interface Identifier {
  /** In the words of the finding: "an e-mail address". */
  readonly what: string;
  /** Offsets within the text that was searched. */
  readonly start: number;
  readonly end: number;
  /** What may stand there instead: a year for a date; undefined takes it out. */
  readonly instead?: string;
}

interface Pattern {
  readonly what: string;
  readonly shape: RegExp;
  /** The group that is the identifier; the whole match when absent. */
  readonly group?: number;
  /** Names and dates are no identifiers of the patient where a person signs. */
  readonly signature?: "allowed";
  readonly instead?: (match: string) => string | undefined;
  readonly unless?: (match: string) => boolean;
}

const months =
  "(?:Jan(?:uary)?|Feb(?:ruary)?|Mar(?:ch)?|Apr(?:il)?|May|June?|July?|Aug(?:ust)?|Sept?(?:ember)?|Oct(?:ober)?|" +
  "Nov(?:ember)?|Dec(?:ember)?)";
/** A code with at least three digits in it. */
const code = "([A-Za-z]{0,4}[-/ ]?\\d[A-Za-z\\d/-]{2,30})";
const marks = "[ .:#=№]{0,4}";

const patterns: readonly Pattern[] = [
  {
    what: "an e-mail address",
    shape: /[A-Za-z\d._%+-]{1,64}@[A-Za-z\d-]{1,63}(?:\.[A-Za-z\d-]{1,63}){1,5}/gu,
  },
  {
    what: "a date",
    shape: /(?<![\d.-])(?:19|20)\d\d[-/.](?:0?[1-9]|1[0-2])[-/.](?:0?[1-9]|[12]\d|3[01])(?![\d-])/gu,
    signature: "allowed",
    instead: yearOf,
  },
  {
    what: "a date",
    shape: /(?<![\d.-])(?:0?[1-9]|[12]\d|3[01])[-/.] ?(?:0?[1-9]|[12]\d|3[01])[-/.] ?(?:19|20)\d\d(?![\d-])/gu,
    signature: "allowed",
    instead: yearOf,
  },
  {
    what: "a date",
    shape:
      /\b(?:born|birth|DOB|dated?|on|since)[ .:]{0,3}((?:0?[1-9]|[12]\d|3[01])[-/.](?:0?[1-9]|[12]\d|3[01])[-/.]\d\d)(?![\d.-])/giu,
    group: 1,
    signature: "allowed",
  },
  {
    what: "a date",
    shape: new RegExp(
      `\\b(?:0?[1-9]|[12]\\d|3[01])(?:st|nd|rd|th)?\\.? (?:of )?${months}\\.?,? (?:19|20)\\d\\d\\b`,
      "giu",
    ),
    signature: "allowed",
    instead: yearOf,
  },
  {
    what: "a date",
    shape: new RegExp(`\\b${months}\\.? (?:0?[1-9]|[12]\\d|3[01])(?:st|nd|rd|th)?,? (?:19|20)\\d\\d\\b`, "giu"),
    signature: "allowed",
    instead: yearOf,
  },
  {
    what: "a telephone number",
    shape: /\b(?:tel|phone|telephone|mobile|cell|fax|call|pager)\b[ .:]{0,3}(\+?[\d(][\d ()./-]{4,20}\d)/giu,
    group: 1,
  },
  { what: "a telephone number", shape: /(?<![\d\w])\+\d[\d ()./-]{7,20}\d(?!\d)/gu },
  { what: "a telephone number", shape: /(?<![\d.-])(?:\(\d{3}\) ?|\d{3}[-. ])\d{3}[-. ]\d{4}(?![\d-])/gu },
  { what: "a social security number", shape: /(?<![\d-])\d{3}-\d{2}-\d{4}(?![\d-])/gu },
  { what: "an internet address", shape: /(?<![\d.])(?:\d{1,3}\.){3}\d{1,3}(?![\d.])/gu },
  {
    what: "a record number",
    shape: new RegExp(
      `\\b(?:MRN|NHS|SSN|PID|(?:(?:medical|hospital|patient|health|insurance|account|policy|record|chart|accession|admission)` +
        `[ -]){1,2}(?:record |id |plan )?(?:no|nr|num|number|id))\\b${marks}${code}`,
      "giu",
    ),
    group: 1,
    unless: fewDigits,
  },
  {
    what: "a serial or lot number",
    shape: new RegExp(
      `\\b(?:serial|lot|batch|UDI|device)(?: ?(?:no|nr|num|number|id)\\b${marks}| ?[.:#=№]{1,2} ?)${code}`,
      "giu",
    ),
    group: 1,
    unless: fewDigits,
  },
  { what: "a serial number", shape: new RegExp(`\\bS/N${marks}${code}`, "giu"), group: 1, unless: fewDigits },
  {
    what: "a postal code",
    shape: /\b(?:zip|postcode|postal code)(?: code)?[ .:]{0,3}([A-Za-z\d]{2,5}(?:[ -][A-Za-z\d]{2,4})?)\b/giu,
    group: 1,
    unless: (match) => !/\d/.test(match),
  },
  { what: "a long number as records have", shape: /(?<![\d.A-Za-z-])\d{7,}(?![\d.])/gu },
  {
    what: "a name",
    shape:
      /(?<!\p{L})(?:Mr|Mrs|Ms|Miss|Mx|Dr|Prof|Professor|Sir|Herr|Frau|Mme|Monsieur|Madame|Señor|Señora)\.? (?:(?:Dr|Prof)\.? )?(\p{Lu}[\p{L}'’.-]*(?: \p{Lu}[\p{L}'’.-]*){0,3})/gu,
    group: 1,
    signature: "allowed",
  },
  {
    what: "a name",
    shape:
      /(?<!\p{L})(?:[Pp]atient|[Nn]ame|[Ss]urname|[Nn]amed|[Cc]alled|[Bb]orn)(?: is|:| =)? (\p{Lu}\p{Ll}['’\p{L}-]*(?: \p{Lu}\p{Ll}['’\p{L}-]*){1,2})/gu,
    group: 1,
    signature: "allowed",
  },
  {
    what: "an age above 89 years",
    shape: /\b(?:aged? ?(?:9\d|1[0-3]\d)\b|(?:9\d|1[0-3]\d)[ -](?:years?[ -]old|year-old|y\/o))/giu,
    instead: () => "90 or older",
  },
];

/** Digital object identifiers and web addresses of the literature: masked, so that their numbers are not taken for a person's. */
const literature = /\b(?:https?:\/\/\S+|doi[: ]{0,2}\S+|10\.\d{4,9}\/\S+|PMC?(?:ID)?:? ?\d+)/giu;

/** What was found in the texts searched last: while a plan is typed all its texts but one stay as they are. */
const searchedBefore = new Map<string, readonly Identifier[]>();
const mostTexts = 2000;

/** The identifiers in a stretch of free text, in order, none inside another. `signed` where a person signs. */
export function identifiersIn(text: string, signed = false): readonly Identifier[] {
  const key = `${signed} ${text}`;
  const known = searchedBefore.get(key);
  if (known !== undefined) return known;
  if (searchedBefore.size >= mostTexts) searchedBefore.clear();
  const found = searchedFor(text, signed);
  searchedBefore.set(key, found);
  return found;
}

function searchedFor(text: string, signed: boolean): readonly Identifier[] {
  const searched = text.replace(literature, (match) => "_".repeat(match.length));
  const all = patterns
    .filter((pattern) => !(signed && pattern.signature === "allowed"))
    .flatMap((pattern) => matchesOf(pattern, searched));
  const inOrder = all.sort((a, b) => a.start - b.start || b.end - a.end);
  return inOrder.filter((each, index) => !inOrder.slice(0, index).some((earlier) => earlier.end > each.start));
}

/**
 * True for the label of a case that gives away more than an invented one: a name of two large-lettered words, a date, or a number
 * of seven digits and more. `TN-0417` is none of these.
 */
export function labelFault(label: string): string | undefined {
  const [first] = identifiersIn(label);
  if (first !== undefined) return first.what;
  const digits = label.replace(/\D/g, "");
  if (digits.length >= 7) return "a number as records have";
  const words = label.split(/[ _,-]+/);
  if (words.length < 2 || words.some((word) => ordinary.has(word.toLowerCase()))) return undefined;
  return words.every((word) => /^\p{Lu}\p{Ll}+\.?$/u.test(word)) ? "a name" : undefined;
}

/** Words that make a label of two words an ordinary one. */
const ordinary = new Set(
  (
    "case plan patient example sample invented teaching lesson left right tibia femur humerus fracture shaft nail knee ankle open " +
    "closed proximal distal one two three four five first second third course exam question study"
  ).split(" "),
);

function matchesOf(pattern: Pattern, text: string): readonly Identifier[] {
  const found: Identifier[] = [];
  for (const match of text.matchAll(pattern.shape)) {
    const part = match[pattern.group ?? 0];
    if (part === undefined || pattern.unless?.(part) === true) continue;
    const start = match.index + match[0].indexOf(part);
    const instead = pattern.instead?.(part);
    found.push({ what: pattern.what, start, end: start + part.length, ...(instead === undefined ? {} : { instead }) });
  }
  return found;
}

function yearOf(date: string): string | undefined {
  return /(?:19|20)\d\d/.exec(date)?.[0];
}

function fewDigits(code: string): boolean {
  return code.replace(/\D/g, "").length < 3;
}
