/**
 * What a new plan begins with, as an editor snippet: the frame and the choices, and no number, so that nothing in a plan was not
 * typed by its writer. What is still missing is named by the findings.
 */

export const newPlanSnippet = `isthmus 1

plan "\${1:What is planned}" {
  status draft

  case \${2:PSEUDONYM} {
    side \${3|left,right|}
    bone \${4|tibia,femur,humerus|}
    fracture \${5:CODE}, from $6 mm to $7 mm
  }

  images {
    view ap, marker $8 mm, seen $9 mm
  }

  measures {
    $10
  }

  operation {
    $0
  }
}
`;
