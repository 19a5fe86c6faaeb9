// Made by scripts/colours.ts from the vocabulary. For highlight.js 11: hljs.registerLanguage('hoof', hoof).
export default function hoof() {
  return {
    "name": "Hoof case",
    "aliases": [
      "hoof"
    ],
    "unicodeRegex": true,
    "disableAutodetect": true,
    "contains": [
      {
        "begin": [
          "(?<![^\\n\\r])[^\\S\\n\\r]*",
          "\\|",
          "[^\\n\\r]*"
        ],
        "beginScope": {
          "2": "punctuation"
        }
      },
      {
        "scope": "comment",
        "match": "#[^\\n\\r]*"
      },
      {
        "scope": "string",
        "match": "\"(?:\\\\[\"\\\\]|[^\"\\n\\r])*\"?"
      },
      {
        "begin": [
          "(?<![^\\n\\r])[^\\S\\n\\r]*",
          "(?:limits|photo|visit|case|film|hoof|plan|read|tape|trim)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
        ],
        "beginScope": {
          "2": "keyword"
        }
      },
      {
        "begin": [
          "(?<![^\\n\\r])[^\\S\\n\\r]*",
          "(?:microchip|code|ueln)",
          "[^\\S\\n\\r]+",
          "[^\\s\"#]+"
        ],
        "beginScope": {
          "2": "property",
          "4": "string"
        }
      },
      {
        "begin": [
          "(?<![^\\n\\r])[^\\S\\n\\r]*",
          "(?:wall\\.inner\\.lower|wall\\.inner\\.upper|coronet\\.lateral|navicular\\.lower|navicular\\.upper|p3\\.dorsal\\.lower|p3\\.dorsal\\.upper|coronet\\.dorsal|coronet\\.medial|fetlock\\.centre|pastern\\.centre|coffin\\.centre|joint\\.lateral|p3\\.wing\\.other|coronet\\.heel|frog\\.lateral|heel\\.lateral|joint\\.medial|p3\\.navicular|wall\\.lateral|wide\\.lateral|bar\\.lateral|frog\\.medial|heel\\.ground|heel\\.medial|p3\\.extensor|wall\\.medial|wide\\.medial|bar\\.medial|heel\\.upper|p3\\.lateral|toe\\.ground|wall\\.lower|wall\\.upper|breakover|frog\\.apex|frog\\.base|p3\\.medial|sole\\.heel|sole\\.wing|wall\\.turn|sole\\.tip|wall\\.top|p3\\.wing|p3\\.tip|toe)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])(?=[^\\S\\n\\r]*@)"
        ],
        "beginScope": {
          "2": "type"
        }
      },
      {
        "begin": [
          "(?<![^\\n\\r])[^\\S\\n\\r]*",
          "(?:triglycerides|temperature|condition|diagnosis|microchip|lameness|medicine|quarters|standing|adverse|bearing|consent|farrier|glucose|hormone|insulin|landing|magnify|outside|sharing|testers|turnout|accept|animal|expect|foaled|ground|height|inside|length|weight|bevel|block|boots|breed|crest|focus|girth|leave|meier|onset|owner|paste|pulse|scale|taken|acth|bars|beam|cast|code|feed|heel|next|obel|seen|shoe|sign|sole|ueln|work|key|pad|toe|vet|why|by)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
        ],
        "beginScope": {
          "2": "property"
        }
      },
      {
        "scope": "variable",
        "match": "(?<![\\p{L}\\p{N}_./-])(?:coronet-extensor\\.level|founder-distance\\.level|hoof-pastern-deviation|plantar-angle\\.bearing|horn-lamellar\\.middle|lamellar-zone\\.middle|palmar-angle\\.bearing|horn-lamellar-share|horn-lamellar\\.lower|horn-lamellar\\.upper|lamellar-zone\\.lower|lamellar-zone\\.upper|phalangeal-rotation|shoe-thickness\\.heel|toe-heel-difference|shoe-thickness\\.toe|sole-depth\\.lateral|wall-angle\\.lateral|capsular-rotation|coronet-navicular|groove-depth\\.apex|groove-depth\\.heel|sole-depth\\.medial|wall-angle\\.medial|coronet-extensor|founder-distance|white-line-width|breakover-reach|grown-out-share|heel-frog-share|sole-depth\\.wing|sole-ultrasound|bearing-length|heel-toe-share|lamellar-share|sole-depth\\.tip|coronet-angle|coronet-girth|cortex-length|phalanx-ratio|plantar-angle|coronet-tilt|ground-width|heel-surplus|middle-angle|palmar-angle|frog-length|heel-height|sole-length|width-share|axis-angle|bone-angle|frog-place|frog-width|heel-angle|heel-width|joint-tilt|shoe-wedge|sole-width|toe-height|toe-length|wall-angle|grown-out|p2-length|p3-length|toe-share|toe-split|cup\\.tip|p3-back|p3-tilt)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
      },
      {
        "scope": "literal",
        "match": "(?<![\\p{L}\\p{N}_./-])(?:notation\\/missing-argument|notation\\/unknown-landmark|range\\/very-low-in-capsule|record\\/duplicate-landmark|notation\\/version-missing|trim\\/sides-not-predicted|notation\\/misplaced-word|notation\\/unknown-choice|range\\/capsular-rotation|alignment\\/outside-only|notation\\/decimal-comma|notation\\/version-newer|record\\/dates-backwards|course\\/stands-flatter|notation\\/missing-unit|notation\\/no-such-date|notation\\/number-range|notation\\/unknown-word|record\\/duplicate-case|record\\/duplicate-word|trim\\/below-sole-plane|notation\\/text-escape|picture\\/before-birth|range\\/low-in-capsule|range\\/sole-depth\\.tip|record\\/contradiction|trim\\/heel-since-film|accept\\/unknown-code|landmark\\/off-ground|landmark\\/proportion|measure\\/not-by-hand|notation\\/unexpected|notation\\/wrong-unit|range\\/coronet-angle|record\\/not-measured|trim\\/heel-per-visit|trim\\/scale-in-doubt|trim\\/turn-per-visit|visit\\/vet-seen-date|course\\/cannot-tell|course\\/tip-shorter|notation\\/code-form|notation\\/date-form|notation\\/open-text|range\\/palmar-angle|range\\/wall-to-bone|scale\\/short-marker|trim\\/not-predicted|trim\\/toe-shortened|visit\\/call-the-vet|case\\/report-lacks|case\\/same-picture|frame\\/no-landmark|landmark\\/followed|scale\\/bone-length|trim\\/palmar-angle|visit\\/score-alone|visit\\/temperature|accept\\/no-reason|frame\\/no-bearing|landmark\\/far-off|landmark\\/oblique|record\\/microchip|record\\/next-date|scale\\/other-foot|shoe\\/not-written|course\\/rotating|film\\/other-foot|landmark\\/joints|limits\\/loosened|measure\\/unknown|picture\\/missing|range\\/too-young|scale\\/foot-size|scale\\/from-file|trim\\/both-sides|trim\\/sole-depth|trim\\/unmeasured|accept\\/nothing|case\\/same-code|course\\/sinking|expect\\/differs|file\\/not-utf-8|file\\/too-large|frame\\/no-scale|landmark\\/order|landmark\\/rough|notation\\/empty|shoe\\/disagrees|tape\\/disagrees|tape\\/thin-sole|trim\\/live-sole|trim\\/wall-left|visit\\/interval|expect\\/absent|frame\\/missing|limits\\/absent|picture\\/twice|trim\\/film-age|visit\\/insulin|accept\\/never|measure\\/unit|picture\\/date|picture\\/side|range\\/agreed|record\\/scale|trim\\/by-hand|trim\\/no-film|trim\\/outcome|trim\\/agreed|trim\\/no-vet|lesson\\/key|tape\\/limit)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
      },
      {
        "scope": "literal",
        "match": "(?<![\\p{L}\\p{N}_./-])(?:LF|LH|RF|RH)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
      },
      {
        "scope": "operator",
        "match": "(?<![\\p{L}\\p{N}_./-])(?:because|fasting|after|dicom|syrup|until|wedge|back|bone|dose|down|from|seen|TRH|off|by|up)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
      },
      {
        "scope": "literal",
        "match": "(?<![\\p{L}\\p{N}_./-])(?:refuses-to-move|coronet-gap|sole-bulge|white-line|discharge|recumbent|resection|bleeding|bounding|followed|moderate|stallion|sweating|swelling|venogram|abscess|coronet|gelding|lateral|private|skyline|absent|donkey|normal|raised|series|severe|fever|filly|front|gives|heels|hinny|horse|inner|jenny|outer|rings|solar|bars|cold|colt|cool|firm|flat|frog|heel|jack|mare|mild|mule|none|open|pony|soft|sole|wall|warm|all|hot|toe)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
      },
      {
        "scope": "number",
        "match": "(?<![\\p{N}.-])\\d{4}-\\d{2}(?:-\\d{2})?(?![\\p{N}.-])"
      },
      {
        "begin": [
          "-?\\d+(?:\\.\\d+)?",
          "[^\\S\\n\\r]*",
          "(?:minutes|mmol\\/L|months|nmol\\/L|pmol\\/L|uIU\\/mL|mIU\\/L|mg\\/dL|mm\\/px|ng\\/mL|pg\\/mL|ug\\/dL|ug\\/mL|weeks|days|mU\\/L|deg|cm|hh|in|kg|lb|mm|%|C|F)(?![\\p{L}\\p{N}_]|[./-][\\p{L}\\p{N}_])"
        ],
        "beginScope": {
          "1": "number",
          "3": "keyword"
        }
      },
      {
        "scope": "number",
        "match": "(?:(?<![\\p{L}\\p{N}_./-])|(?<=\\+-))-?\\d+(?:\\.\\d+)?"
      },
      {
        "scope": "operator",
        "match": "\\+-|±|[<>]=?|[≤≥=@]"
      },
      {
        "scope": "punctuation",
        "match": ",|\\.\\."
      }
    ]
  };
}
