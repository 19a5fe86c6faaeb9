import { describe, expect, it } from 'vitest';
import { handlesOf } from '../../src/preview/placing/handles.ts';
import { overviewPlace } from '../../src/preview/placing/overview.ts';
import { boxesAlong, labelsSvg, layLabels, layNames, meet, spotBoxes } from '../../src/preview/placing/stage-labels.ts';
import { toStage, wholeSight } from '../../src/preview/placing/view.ts';
import { stageLines } from '../../shared/drawing/plate/stage-lines.ts';
import { restsOn } from '../../shared/views/about-measures.ts';
import { exampleSheets } from './example-sheets.ts';

const picture = { width: 1400, height: 1200 };
/** From the narrowest on which numbers stand at all to a wide screen; one is low. */
const stages = [
  { width: 480, height: 430 },
  { width: 640, height: 300 },
  { width: 720, height: 700 },
  { width: 1300, height: 900 },
];

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
const isOn = ({ x, y, width, height }: Box, stage: { width: number; height: number }): boolean =>
  x >= 0 && y >= 0 && x + width <= stage.width && y + height <= stage.height;

describe('words on the stage', () => {
  it.each(stages)('never meet each other, a place, the small picture or the edge, on a stage of %o', (stage) => {
    let told = 0;
    let onBar = 0;
    let named = 0;
    let nameless = 0;
    let left = 0;
    for (const live of exampleSheets().filter(({ view }) => view === 'lateral'))
      for (const landmark of Object.keys(live.placed))
        for (const closer of [1, 3]) {
          const whole = wholeSight(stage, picture);
          const at = live.placed[landmark] ?? { x: 0, y: 0 };
          const sight = closer === 1 ? whole : { x: at.x, y: at.y, zoom: whole.zoom * closer };
          const place = (p: { x: number; y: number }) => toStage(sight, stage, p);
          const handles = handlesOf(live).map((one) => ({ ...one, at: place(one.at) }));
          const rows = live.rows.filter((row) => restsOn(row.measure, landmark) && ['deg', 'mm'].includes(row.unit));
          const lines = stageLines({
            view: live.view,
            placed: new Map(Object.entries(live.placed)),
            ground: live.ground,
            bearing: live.bearing,
            scale: live.scale,
            picture,
            measures: rows.map(({ measure }) => measure),
          });
          const anchored = rows.flatMap((row) => {
            const anchor = lines.measures.find(({ measure }) => measure === row.measure)?.anchor;
            return anchor ? [{ row, anchor: place(anchor) }] : [];
          });
          const overview = overviewPlace(sight, stage, picture, at);
          expect(overview === null).toBe(closer === 1);
          const small = overview ? [{ ...overview.at, ...overview.size }] : [];
          const bar = live.marker ? boxesAlong([place(live.marker[0]), place(live.marker[1])]) : [];
          const labels = layLabels(anchored, stage, [...small, ...spotBoxes(handles)], bar);
          const boxes = labels.map(({ box }) => box);
          const wrong = boxes.filter(
            (box, index) =>
              !isOn(box, stage) ||
              [...boxes.slice(index + 1), ...small, ...spotBoxes(handles)].some((other) => meet(box, other)),
          );
          expect({ film: live.title, landmark, closer, wrong }).toEqual({
            film: live.title,
            landmark,
            closer,
            wrong: [],
          });
          told += labels.length;
          onBar += boxes.filter((box) => bar.some((other) => meet(box, other))).length;
          left += Math.min(anchored.length, 8) - labels.length;
          const names = layNames(handles, landmark, stage, [...small, ...boxes]);
          const inHand = names.get(landmark)?.box;
          for (const [key, { box }] of names) {
            const meets = [...small, ...boxes, ...(inHand && key !== landmark ? [inHand] : [])].some((other) =>
              meet(box, other),
            );
            expect({ key, on: isOn(box, stage), meets }).toEqual({ key, on: true, meets: false });
          }
          named += names.size;
          nameless += handles.filter(
            ({ key, at }) => isOn({ ...at, width: 0, height: 0 }, stage) && !names.has(key),
          ).length;
        }
    // Room is found for nearly all of them, or the check would hold for an empty stage too.
    expect(told).toBeGreaterThan(300);
    expect(named).toBeGreaterThan(5000);
    expect(left / (told + left)).toBeLessThan(0.06);
    // On a small stage there is not always other room.
    expect(onBar / told).toBeLessThan(stage.width >= 700 ? 0.02 : 0.15);
    expect(nameless / named).toBeLessThan(0.1);
  });

  it('say a state in its word, and lead to what is on the stage alone', () => {
    const stage = { width: 800, height: 600 };
    const row = { words: 'palmar angle', text: '7.4° ± 0.6', state: 'high' } as const;
    const [label] = layLabels([{ row, anchor: { x: 200, y: 100 } }], stage, []);
    const [off] = layLabels([{ row, anchor: { x: -50, y: 100 } }], stage, []);
    if (!label || !off) throw new Error('no label');
    expect(labelsSvg([label])).toContain('>high</tspan>');
    expect(labelsSvg([label])).toContain('class="leader ink"');
    expect(labelsSvg([off])).not.toContain('leader');
  });
});
