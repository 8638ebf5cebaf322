/** Every rule, sorted by its slug. A test holds this list to the folder; a new rule is added here in two places by hand. */
import { rule as achievedDiffers } from "./achieved-differs.ts";
import { rule as alignmentOff } from "./alignment-off.ts";
import { rule as antibioticMissing } from "./antibiotic-missing.ts";
import { rule as bearingUnstable } from "./bearing-unstable.ts";
import { rule as blockSide } from "./block-side.ts";
import { rule as boreWide } from "./bore-wide.ts";
import { rule as capMissing } from "./cap-missing.ts";
import { rule as capProud } from "./cap-proud.ts";
import { rule as capUnlisted } from "./cap-unlisted.ts";
import { rule as catalogueFaulty } from "./catalogue-faulty.ts";
import { rule as changedSinceReview } from "./changed-since-review.ts";
import { rule as checkOnePlane } from "./check-one-plane.ts";
import { rule as citationUnknown } from "./citation-unknown.ts";
import { rule as citationUnused } from "./citation-unused.ts";
import { rule as codeOldSpelling } from "./code-old-spelling.ts";
import { rule as codeUnknown } from "./code-unknown.ts";
import { rule as compartmentLow } from "./compartment-low.ts";
import { rule as compartmentWatch } from "./compartment-watch.ts";
import { rule as compressionBeyondTravel } from "./compression-beyond-travel.ts";
import { rule as compressionPastGap } from "./compression-past-gap.ts";
import { rule as compressionUnheld } from "./compression-unheld.ts";
import { rule as compressionUnprepared } from "./compression-unprepared.ts";
import { rule as cortexThin } from "./cortex-thin.ts";
import { rule as decimalComma } from "./decimal-comma.ts";
import { rule as demanded } from "./demanded.ts";
import { rule as drillOdd } from "./drill-odd.ts";
import { rule as drivingEndNarrow } from "./driving-end-narrow.ts";
import { rule as dynamiseEarly } from "./dynamise-early.ts";
import { rule as dynamiseImpossible } from "./dynamise-impossible.ts";
import { rule as dynamiseUnstable } from "./dynamise-unstable.ts";
import { rule as entryOff } from "./entry-off.ts";
import { rule as familyUnlisted } from "./family-unlisted.ts";
import { rule as fatigueDistance } from "./fatigue-distance.ts";
import { rule as fileCircular } from "./file-circular.ts";
import { rule as fileMissing } from "./file-missing.ts";
import { rule as fileOutside } from "./file-outside.ts";
import type { Rule } from "./finding.ts";
import { rule as fitRatio } from "./fit-ratio.ts";
import { rule as fractureReversed } from "./fracture-reversed.ts";
import { rule as frontCuttingUnlisted } from "./front-cutting-unlisted.ts";
import { rule as gapStrain } from "./gap-strain.ts";
import { rule as growthPlatesOpen } from "./growth-plates-open.ts";
import { rule as headUnlisted } from "./head-unlisted.ts";
import { rule as hiddenCharacter } from "./hidden-character.ts";
import { rule as holeRepeated } from "./hole-repeated.ts";
import { rule as holeUnknown } from "./hole-unknown.ts";
import { rule as holesOverlap } from "./holes-overlap.ts";
import { rule as identifier } from "./identifier.ts";
import { rule as implausible } from "./implausible.ts";
import { rule as infection } from "./infection.ts";
import { rule as kneeStiff } from "./knee-stiff.ts";
import { rule as lockingOrder } from "./locking-order.ts";
import { rule as misplaced } from "./misplaced.ts";
import { rule as missing } from "./missing.ts";
import { rule as nailDeep } from "./nail-deep.ts";
import { rule as nailLengthEstimate } from "./nail-length-estimate.ts";
import { rule as nailLong } from "./nail-long.ts";
import { rule as nailNearJoint } from "./nail-near-joint.ts";
import { rule as nailProud } from "./nail-proud.ts";
import { rule as nailShort } from "./nail-short.ts";
import { rule as nailUnfit } from "./nail-unfit.ts";
import { rule as nailUnlisted } from "./nail-unlisted.ts";
import { rule as nameRepeated } from "./name-repeated.ts";
import { rule as nameUnknown } from "./name-unknown.ts";
import { rule as nameUnused } from "./name-unused.ts";
import { rule as narrowCanal } from "./narrow-canal.ts";
import { rule as noteAdrift } from "./note-adrift.ts";
import { rule as noticeMissing } from "./notice-missing.ts";
import { rule as onePlane } from "./one-plane.ts";
import { rule as overinsertionShort } from "./overinsertion-short.ts";
import { rule as partOffNail } from "./part-off-nail.ts";
import { rule as questionUnanswered } from "./question-unanswered.ts";
import { rule as questionWithoutReason } from "./question-without-reason.ts";
import { rule as rangeUnreached } from "./range-unreached.ts";
import { rule as reamingOrder } from "./reaming-order.ts";
import { rule as reamingOverIsthmus } from "./reaming-over-isthmus.ts";
import { rule as reamingOvershoot } from "./reaming-overshoot.ts";
import { rule as reamingStart } from "./reaming-start.ts";
import { rule as reamingStep } from "./reaming-step.ts";
import { rule as reamingUndershoot } from "./reaming-undershoot.ts";
import { rule as removalIncomplete } from "./removal-incomplete.ts";
import { rule as removalOrder } from "./removal-order.ts";
import { rule as repeated } from "./repeated.ts";
import { rule as reviewMissing } from "./review-missing.ts";
import { rule as rotationOff } from "./rotation-off.ts";
import { rule as scaleMissing } from "./scale-missing.ts";
import { rule as scaleOdd } from "./scale-odd.ts";
import { rule as screwDiameters } from "./screw-diameters.ts";
import { rule as screwInFracture } from "./screw-in-fracture.ts";
import { rule as screwNearFracture } from "./screw-near-fracture.ts";
import { rule as screwOverlength } from "./screw-overlength.ts";
import { rule as screwPerforates } from "./screw-perforates.ts";
import { rule as screwShort } from "./screw-short.ts";
import { rule as screwStress } from "./screw-stress.ts";
import { rule as screwUnlisted } from "./screw-unlisted.ts";
import { rule as screwWrong } from "./screw-wrong.ts";
import { rule as screwsFew } from "./screws-few.ts";
import { rule as screwsFewShortFragment } from "./screws-few-short-fragment.ts";
import { rule as screwsUnused } from "./screws-unused.ts";
import { rule as segmentDisagrees } from "./segment-disagrees.ts";
import { rule as shorteningOff } from "./shortening-off.ts";
import { rule as sizesDisordered } from "./sizes-disordered.ts";
import { rule as softTissueContradiction } from "./soft-tissue-contradiction.ts";
import { rule as stepOrder } from "./step-order.ts";
import { rule as supportUnderKnee } from "./support-under-knee.ts";
import { rule as thousandsSeparator } from "./thousands-separator.ts";
import { rule as tooDeep } from "./too-deep.ts";
import { rule as tooLong } from "./too-long.ts";
import { rule as tourniquetReaming } from "./tourniquet-reaming.ts";
import { rule as travelBeyondSlot } from "./travel-beyond-slot.ts";
import { rule as unitMismatch } from "./unit-mismatch.ts";
import { rule as unitMissing } from "./unit-missing.ts";
import { rule as unknownWord } from "./unknown-word.ts";
import { rule as unreadable } from "./unreadable.ts";
import { rule as unreamedTight } from "./unreamed-tight.ts";
import { rule as waiverRefused } from "./waiver-refused.ts";
import { rule as waiverUnexplained } from "./waiver-unexplained.ts";
import { rule as waiverUnused } from "./waiver-unused.ts";
import { rule as wireMissing } from "./wire-missing.ts";

export const rules: readonly Rule[] = [
  achievedDiffers,
  alignmentOff,
  antibioticMissing,
  bearingUnstable,
  blockSide,
  boreWide,
  capMissing,
  capProud,
  capUnlisted,
  catalogueFaulty,
  changedSinceReview,
  checkOnePlane,
  citationUnknown,
  citationUnused,
  codeOldSpelling,
  codeUnknown,
  compartmentLow,
  compartmentWatch,
  compressionBeyondTravel,
  compressionPastGap,
  compressionUnheld,
  compressionUnprepared,
  cortexThin,
  decimalComma,
  demanded,
  drillOdd,
  drivingEndNarrow,
  dynamiseEarly,
  dynamiseImpossible,
  dynamiseUnstable,
  entryOff,
  familyUnlisted,
  fatigueDistance,
  fileCircular,
  fileMissing,
  fileOutside,
  fitRatio,
  fractureReversed,
  frontCuttingUnlisted,
  gapStrain,
  growthPlatesOpen,
  headUnlisted,
  hiddenCharacter,
  holeRepeated,
  holeUnknown,
  holesOverlap,
  identifier,
  implausible,
  infection,
  kneeStiff,
  lockingOrder,
  misplaced,
  missing,
  nailDeep,
  nailLengthEstimate,
  nailLong,
  nailNearJoint,
  nailProud,
  nailShort,
  nailUnfit,
  nailUnlisted,
  nameRepeated,
  nameUnknown,
  nameUnused,
  narrowCanal,
  noteAdrift,
  noticeMissing,
  onePlane,
  overinsertionShort,
  partOffNail,
  questionUnanswered,
  questionWithoutReason,
  rangeUnreached,
  reamingOrder,
  reamingOverIsthmus,
  reamingOvershoot,
  reamingStart,
  reamingStep,
  reamingUndershoot,
  removalIncomplete,
  removalOrder,
  repeated,
  reviewMissing,
  rotationOff,
  scaleMissing,
  scaleOdd,
  screwDiameters,
  screwInFracture,
  screwNearFracture,
  screwOverlength,
  screwPerforates,
  screwShort,
  screwStress,
  screwUnlisted,
  screwWrong,
  screwsFew,
  screwsFewShortFragment,
  screwsUnused,
  segmentDisagrees,
  shorteningOff,
  sizesDisordered,
  softTissueContradiction,
  stepOrder,
  supportUnderKnee,
  thousandsSeparator,
  tooDeep,
  tooLong,
  tourniquetReaming,
  travelBeyondSlot,
  unitMismatch,
  unitMissing,
  unknownWord,
  unreadable,
  unreamedTight,
  waiverRefused,
  waiverUnexplained,
  waiverUnused,
  wireMissing,
];
