/**
 * The alignment profiles that come with the tool: two sets of limits in common use that differ in the sagittal plane. A protocol names
 * one; how that overrides a limit stands in `limits.ts`.
 */
import type { Basis } from "../reckoning/reckoning.ts";
import { type LimitEntry, type LimitName, limitTable } from "./limit-table.ts";

export interface Profile {
  /** A word of the vocabulary's table for `profile`. */
  readonly name: string;
  readonly sets: readonly ProfileLimit[];
}

interface ProfileLimit {
  readonly limit: LimitName;
  /** Inclusive upper end. */
  readonly most: number;
  /** A word of `server/quantity/units.ts`. */
  readonly unit: string;
  readonly basis: Basis;
}

const anneberg: Basis = {
  mark: "printed",
  text: "Anneberg & Brink, Injury 2018;49 Suppl 1:S66: varus or valgus below 5 deg, sagittal below 10 deg, shortening below 10 mm",
};

export const profiles: readonly Profile[] = [
  {
    name: "every-plane-five",
    sets: [asByDefault("coronal"), asByDefault("sagittal"), asByDefault("rotation"), asByDefault("shortening")],
  },
  {
    name: "sagittal-ten",
    sets: [
      { limit: "coronal", most: 5, unit: "deg", basis: anneberg },
      { limit: "sagittal", most: 10, unit: "deg", basis: anneberg },
      asByDefault("rotation"),
      { limit: "shortening", most: 10, unit: "mm", basis: anneberg },
    ],
  },
];

export function profileNamed(name: string): Profile | undefined {
  return profiles.find((profile) => profile.name === name);
}

/**
 * A limit as it is by default, which a profile sets to hold after a protocol that set something else. Throws for one without an upper
 * end: a mistake in the table of profiles.
 */
export function asByDefault(limit: LimitName): ProfileLimit {
  const entry: LimitEntry | undefined = limitTable.find(({ name }) => name === limit);
  if (entry?.most === undefined) throw new Error(`limit ${limit} has no upper end by default`);
  return { limit, most: entry.most, unit: entry.unit, basis: entry.basis };
}
