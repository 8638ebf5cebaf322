/** The tool's version, from the package it comes in. */
import manifest from "../../package.json" with { type: "json" };

export const version: string = manifest.version;
