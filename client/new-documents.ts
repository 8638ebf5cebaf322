/**
 * What a new document begins with, as an editor snippet: the frame and the choices, and no number, so that nothing in it was not typed
 * by its writer. What is still missing is named by the findings.
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

export const newCatalogueSnippet = `isthmus 1

catalogue "\${1:What the set is called}" {
  notice "\${2:From which document this was typed, by whom; or that it is invented}"

  nail \${3:nail-name} {
    for \${4|tibia,femur,humerus|}
    diameters $5 mm to $6 mm by $7 mm
    lengths $8 mm to $9 mm by $10 mm
    hole \${11:hole-name}, \${12|top,tip|} $13 mm, runs \${14|medial-lateral,anterior-posterior|}, takes \${15:screw-name}
  }

  screws \${15:screw-name} {
    thread $16 mm
    core $17 mm
    drill $18 mm
    lengths $19 mm to $20 mm by $21 mm
  }

  reamers {
    heads $22 mm to $23 mm by $24 mm
  }
}
`;

export const newProtocolSnippet = `isthmus 1

protocol "\${1:Whose rules these are}" {
  limit \${2:reaming-over-nail} \${3|up-to,at-least|} $4 mm, because "\${5:Why}"
  grade \${6:cap-missing} \${7|warning,error,information,off|}
  demand \${8:antibiotic}
}
`;
