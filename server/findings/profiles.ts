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
    sets: asByDefault("coronal", "sagittal", "rotation", "shortening"),
  },
  {
    name: "sagittal-ten",
    sets: [
      { limit: "coronal", most: 5, unit: "deg", basis: anneberg },
      { limit: "sagittal", most: 10, unit: "deg", basis: anneberg },
      ...asByDefault("rotation"),
      { limit: "shortening", most: 10, unit: "mm", basis: anneberg },
    ],
  },
];

export function profileNamed(name: string): Profile | undefined {
  return profiles.find((profile) => profile.name === name);
}

/** The one profile is what holds by default; named, it also holds after a protocol that set something else. */
function asByDefault(...limits: readonly LimitName[]): readonly ProfileLimit[] {
  const entries: readonly LimitEntry[] = limitTable;
  return limits.flatMap((limit) =>
    entries
      .filter(({ name }) => name === limit)
      .filter(hasUpperEnd)
      .map(({ most, unit, basis }) => ({ limit, most, unit, basis })),
  );
}

function hasUpperEnd(entry: LimitEntry): entry is LimitEntry & { readonly most: number } {
  return entry.most !== undefined;
}
