/** The standing words of caution, shown on every face; no option removes them. */
export const caution =
  "Planning and teaching aid. Not a medical device, not validated for clinical use. " +
  "Numbers depend on the readings typed in. The operating surgeon, the implant maker's current instructions and local rules decide.";
