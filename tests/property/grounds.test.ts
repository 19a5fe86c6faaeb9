import { describe, expect, it } from 'vitest';
import { caseGrounds, cutGrounds, filmGrounds } from '../../shared/findings/engine/grounds.ts';
import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import { readReference } from '../../shared/findings/limits/read-reference.ts';
import type { StoredScale } from '../../shared/measures/take.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import type { OwnSet } from '../../shared/reference/own-set.ts';
import { usualStudy, type StudySettings } from '../../shared/trim/study.ts';
import { filmText } from '../unit/plain-foot.ts';

/** The visit that is looked at is the third; its text stays as it is. Its trim rests on the film before, its outcome on the film after. */
const looked = `visit 2026-03-20
  obel 1
${filmText({ 'wall.top': [-18, 69], 'sole.tip': [0, 5] }, { header: 'film RF lateral "looked.png"' })}

  trim LF
    heel  down 9 mm
    toe   down 3 mm
`;
/** The same on a shoe of 10 mm, the ground that far below its bearing plane. */
const shodLooked = looked.replace(
  'ground 0, 1000 .. 2000, 1000',
  'ground 0, 1100 .. 2000, 1100\n    bearing 0, 1000 .. 2000, 1000',
);
const start = `hoof 1

case "X"
  animal    horse mare
  height    150 cm

limits
  heel-height         <= 10 mm

visit 2026-01-04
${filmText({}, { header: 'film LF lateral "first.png"' })}

visit 2026-03-04
${filmText({}, { header: 'film LF lateral "before.png"', scale: 'scale dicom' })}

${looked}
visit 2026-04-20
${filmText({}, { header: 'film LF lateral "after.png"' })}
`;

/** Draws a line of its own for the sole. */
const ownSet = readReference(
  JSON.stringify({
    'ungula-reference': 1,
    name: 'Our yard',
    source: { cite: 'our films' },
    bands: [{ measure: 'sole-depth.tip', low: 18 }],
  }),
).set as OwnSet;

interface Change {
  /** What the case is before; the text above where it is left out. */
  readonly from?: string;
  readonly to?: (text: string) => string;
  readonly settings?: Partial<StudySettings>;
  /** The visit that is looked at, where it is not the one above. */
  readonly looked?: string;
  /** mm a pixel that the file of a picture says. */
  readonly stored?: number;
}

type Ground = keyof typeof caseGrounds | keyof typeof filmGrounds | keyof typeof cutGrounds;

const ofBones = start.replace('scale dicom', 'scale bone');

/** For every ground that is declared a change of it; the compiler misses one that is left out. */
const changes: Readonly<Record<Ground, Change>> = {
  kind: { to: (text) => text.replace('horse mare', 'donkey jenny') },
  height: { to: (text) => text.replace('150 cm', '110 cm') },
  born: {
    from: start.replace('  height', '  foaled 2025-05-01\n  height'),
    to: (text) => text.replace('foaled 2025', 'foaled 2026'),
  },
  'grown from': { to: (text) => text.replace('  height', '  foaled 2025-05-01\n  height') },
  'own sets of values': { settings: { reference: [ownSet] } },
  'settings of trims': { settings: { trim: { ...usualStudy.trim, heelPerVisit: 4 } } },
  limits: { to: (text) => text.replace('<= 10 mm', '<= 12 mm') },
  text: { to: (text) => text.replace('"after.png"\n', '"after.png"\n    taken 2026-04-21\n') },
  readings: { to: (text) => text.replace(/("after\.png"[^]*p3\.wing @ 1200, )\d+/, '$1790') },
  'what the picture says': { stored: 0.12 },
  'scale from the bones': {
    from: ofBones,
    to: (text) => text.replace(/("first\.png"[^]*?)scale 0\.1 /, '$1scale 0.12 '),
  },
  'what the foot wears': {
    from: start.replace('visit 2026-01-04\n', 'visit 2026-01-04\n  pad RF 5 mm\n'),
    to: (text) => text.replace('pad RF 5 mm', 'pad RF 6 mm'),
  },
  'why it is bare': {
    from: start
      .replace('visit 2026-01-04\n', 'visit 2026-01-04\n  shoe RF 10 mm\n\nvisit 2026-02-04\n  shoe RF off\n')
      .replace(looked, shodLooked),
    to: (text) => text.replace('visit 2026-02-04\n', 'visit 2026-02-05\n'),
    looked: shodLooked,
  },
  'trims before': {
    from: start.replace(looked, `visit 2026-03-10\n  trim LF\n    work "edges"\n\n${looked}`),
    to: (text) => text.replace('work "edges"', 'heel down 2 mm'),
  },
  'trims of the same visit': {
    from: start.replace(
      looked,
      `visit 2026-03-20\n  trim LF\n    heel down 2 mm\n\n${filmText({}, { header: 'film LF lateral "between.png"' })}\n\n${looked}`,
    ),
    to: (text) => text.replace('heel down 2 mm', 'heel down 3 mm'),
  },
  prediction: { to: (text) => text.replace(/("before\.png"[^]*?p3\.wing @ 1200, )\d+/, '$1780') },
};

/** What is told in the block of the visit that is looked at, places from its start. */
function toldThere({ findings }: Inspection, text: string, visit = looked): unknown[] {
  const from = text.indexOf(visit);
  const to = from + visit.length;
  return findings
    .filter(({ at }) => at.start >= from && at.start < to)
    .map(({ code, severity, message, at, measure, value }) => [
      code,
      severity,
      message,
      at.start - from,
      measure,
      value,
    ]);
}

const stored = (mmPerPx: number) => {
  const scale: StoredScale = { mmPerPx, words: 'as stored' };
  return () => scale;
};

function groundsIn({ study }: Inspection, ground: Ground): unknown[] {
  if (ground in caseGrounds) return [caseGrounds[ground as keyof typeof caseGrounds](study)];
  if (ground in cutGrounds)
    return study.cuts.map((cut) => [cut.earlier, cut.unmeasured, cut.prediction?.value('palmar-angle')?.value]);
  return study.films.map((film) => filmGrounds[ground as keyof typeof filmGrounds](film));
}

describe('what is told of a visit', () => {
  it.each(Object.entries(changes) as [Ground, Change][])('follows its ground: %s', (ground, change) => {
    const {
      from = start,
      to = (text: string) => text,
      settings = {},
      stored: size = 0.1,
      looked: at = looked,
    } = change;
    const memory = new BlockMemory();
    const scales = stored(0.1);
    const before = inspect(from, usualStudy, memory, scales);
    const after = to(from);
    expect(after !== from || 'settings' in change || size !== 0.1).toBe(true);
    expect(after).toContain(at);
    const now = [after, { ...usualStudy, ...settings }, size === 0.1 ? scales : stored(size)] as const;
    const recalled = inspect(now[0], now[1], memory, now[2]);
    const anew = inspect(now[0], now[1], new BlockMemory(), now[2]);
    expect(groundsIn(recalled, ground)).not.toEqual(groundsIn(before, ground));
    expect(toldThere(recalled, after, at)).toEqual(toldThere(anew, after, at));
    expect(toldThere(recalled, after, at)).not.toEqual(toldThere(before, from, at));
  });

  it('stays the very same where none of them has changed', () => {
    const memory = new BlockMemory();
    const before = inspect(start, usualStudy, memory, stored(0.1));
    const after = inspect(`${start}\n# a remark\n`, usualStudy, memory, stored(0.1));
    expect(toldThere(before, start).length).toBeGreaterThan(3);
    expect(toldThere(after, start)).toEqual(toldThere(before, start));
  });
});
