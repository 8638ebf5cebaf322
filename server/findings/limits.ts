/**
 * The limits in force for one plan: the defaults of `limit-table.ts` with what the followed protocols set, line by line or by a
 * profile, a later protocol over an earlier one. A setting that cannot be used makes its limit unreadable instead of falling back in silence.
 */
import type { LimitSetting, Place, Protocol, Typed } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import type { Known } from "../quantity/quantity.ts";
import { dimensionName, sameDimension } from "../quantity/units.ts";
import type { Basis } from "../reckoning/reckoning.ts";
import { type LimitEntry, type LimitName, limitTable } from "./limit-table.ts";
import { profileNamed } from "./profiles.ts";
import { withArticle } from "./words.ts";

export type { LimitName } from "./limit-table.ts";

export interface Limit {
  readonly name: LimitName;
  readonly title: string;
  /** Inclusive lower end. */
  readonly least?: Known;
  /** Inclusive upper end. */
  readonly most?: Known;
  /** Unit in which both ends are shown. */
  readonly unit: string;
  readonly basis: Basis;
  readonly population?: string;
  /** The default, or the protocol's line that set it. */
  readonly from: "default" | Place;
  /** The profile that line names; absent when the line sets the limit itself. */
  readonly profile?: string;
  /** The reason the protocol gives. */
  readonly because?: string;
  /** Why the setting in force cannot be used; nothing may be judged against such a limit. */
  readonly unreadable?: string;
}

export interface Limits {
  readonly get: (name: LimitName) => Limit;
}

const defaults: ReadonlyMap<string, Limit> = new Map(limitTable.map((entry) => [entry.name, byDefault(entry)]));

/** The limits under these protocols, the last one strongest. */
export function limitsOf(protocols: readonly Protocol[]): Limits {
  const inForce = new Map(defaults);
  for (const protocol of protocols) {
    for (const line of linesOf(protocol)) {
      for (const limit of "profile" in line ? underProfile(inForce, line) : underSetting(inForce, line)) {
        inForce.set(limit.name, limit);
      }
    }
  }
  return {
    get(name) {
      const limit = inForce.get(name);
      if (limit === undefined) throw new Error(`no limit is called ${name}`);
      return limit;
    },
  };
}

interface ProfileLine {
  readonly profile: string;
  readonly place: Place;
}

/** What sets limits in a protocol, in the order of its text: the line further down overrides the one further up. */
function linesOf({ limits, profiles }: Protocol): readonly (LimitSetting | ProfileLine)[] {
  const named = profiles.map(({ name, place }): ProfileLine => ({ profile: name.text, place }));
  return [...limits, ...named].sort((a, b) => a.place.span.start - b.place.span.start);
}

function underSetting(inForce: ReadonlyMap<string, Limit>, setting: LimitSetting): readonly Limit[] {
  const limit = inForce.get(setting.name.text);
  return limit === undefined ? [] : [under(limit, setting)];
}

/** A profile of no such name is told where it is written and sets nothing. */
function underProfile(inForce: ReadonlyMap<string, Limit>, { profile, place }: ProfileLine): readonly Limit[] {
  const sets = profileNamed(profile)?.sets ?? [];
  return [...inForce.values()].flatMap(({ name, title }) =>
    sets
      .filter(({ limit }) => limit === name)
      .map(({ most, unit, basis }) => ({ name, title, most: constant(most, unit), unit, basis, from: place, profile })),
  );
}

/** The default of that name; undefined when no limit has it. */
export function defaultLimit(name: string): Limit | undefined {
  return defaults.get(name);
}

/** Why this setting cannot be used for its limit, in plain words; undefined when it can. */
export function settingFault(setting: LimitSetting): string | undefined {
  const limit = defaults.get(setting.name.text);
  if (limit === undefined) return undefined;
  if (setting.least === undefined && setting.most === undefined) return `limit ${limit.name} is set to nothing`;
  for (const end of [setting.least, setting.most]) {
    const fault = end === undefined ? undefined : endFault(limit, end);
    if (fault !== undefined) return fault;
  }
  const least = knownOf(setting.least);
  const most = knownOf(setting.most);
  if (least !== undefined && most !== undefined && least.value > most.value) {
    return `limit ${limit.name} has its lower end above its upper end`;
  }
  return undefined;
}

function endFault(limit: Limit, end: Typed): string | undefined {
  if (end.quantity.kind === "unknown") return `limit ${limit.name} is unknown: ${end.quantity.because}`;
  const wanted = constant(0, limit.unit);
  if (sameDimension(end.quantity.dimension, wanted.dimension)) return undefined;
  const is = dimensionName(end.quantity.dimension);
  return `limit ${limit.name} is ${withArticle(dimensionName(wanted.dimension))}, not ${withArticle(is)}`;
}

function under(limit: Limit, setting: LimitSetting): Limit {
  const { name, title, unit } = limit;
  const least = knownOf(setting.least);
  const most = knownOf(setting.most);
  const unreadable = settingFault(setting);
  return {
    name,
    title,
    unit,
    ...(unreadable === undefined && least !== undefined ? { least } : {}),
    ...(unreadable === undefined && most !== undefined ? { most } : {}),
    basis: { mark: "department's choice", text: basisOf(setting) },
    from: setting.place,
    ...(setting.because === undefined ? {} : { because: setting.because.text }),
    ...(unreadable === undefined ? {} : { unreadable }),
  };
}

function basisOf(setting: LimitSetting): string {
  if (setting.source !== undefined) return `set by the protocol, source: ${setting.source.text}`;
  if (setting.because !== undefined) return `set by the protocol: ${setting.because.text}`;
  return "set by the protocol";
}

function byDefault(entry: LimitEntry & { readonly name: LimitName }): Limit {
  const least = entry.least === undefined ? undefined : constant(entry.least, entry.unit);
  const most = entry.most === undefined ? undefined : constant(entry.most, entry.unit);
  return {
    name: entry.name,
    title: entry.title,
    unit: entry.unit,
    ...(least === undefined ? {} : { least }),
    ...(most === undefined ? {} : { most }),
    basis: entry.basis,
    ...(entry.population === undefined ? {} : { population: entry.population }),
    from: "default",
  };
}

function knownOf(typed: Typed | undefined): Known | undefined {
  return typed?.quantity.kind === "known" ? typed.quantity : undefined;
}
