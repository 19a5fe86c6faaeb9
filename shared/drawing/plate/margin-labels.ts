import { t } from '../../language/words.ts';
import type { XY } from '../../geometry/vector.ts';
import { layOut, leaderStart, type LabelPlace, type MarginSide } from './label-layout.ts';
import { fitted, widthInEm, wrapped } from './lettering.ts';
import { stateWords } from './state-words.ts';
import type { PlateLabel } from './plate-label.ts';
import { bandRule, RULE_LENGTH } from './band-rule.ts';
import { group, type Box, type GroupNode, type LabelBox, type SceneNode, type TextRun } from '../scene.ts';

const WIDEST = 18.5;
/** Where the lettering is large for the picture, the value goes below its words, so that the columns stay slim. */
const SLIM = 12.5;
const LINE = 1.28;
const HOOK = 0.62;
const KNEE = 1.1;
const STATE_GAP = 0.55;

interface LabelBlock {
  readonly lines: readonly (readonly TextRun[])[];
  readonly state: string;
  readonly rule: boolean;
  readonly width: number;
  readonly height: number;
}

function block(label: PlateLabel, widest: number): LabelBlock {
  const words = { classes: ['words'] };
  const value = { classes: ['value'] };
  const text = label.after ? `${label.text} → ${label.after.text}` : label.text;
  const oneLine = widthInEm(label.words) + 0.36 + widthInEm(text);
  const lines: TextRun[][] =
    oneLine <= widest
      ? [
          [
            { text: `${label.words} `, ...words },
            { text, ...value },
          ],
        ]
      : [
          ...wrapped(label.words, widest).map((text) => [{ text, ...words }]),
          [{ text: fitted(text, widest), ...value }],
        ];
  const rule = label.band !== null && (label.band.low !== null || label.band.high !== null);
  const state = stateWords[label.state];
  const second = (rule ? RULE_LENGTH + STATE_GAP : 0) + widthInEm(state);
  const width = Math.max(second, ...lines.map((runs) => runs.reduce((sum, run) => sum + widthInEm(run.text), 0)));
  return { lines, state, rule, width, height: (lines.length + (rule || state ? 1 : 0)) * LINE };
}

/** What the colours and weights of a measure's lines are chosen by. */
export function stateClasses(label: PlateLabel, highlight: string | null): string[] {
  const classes = [`state-${label.state}`];
  if (label.measure === highlight) classes.push('is-lit');
  return classes;
}

export interface MarginLabels {
  readonly nodes: readonly GroupNode[];
  readonly boxes: readonly LabelBox[];
}

export interface MarginInput {
  readonly labels: readonly PlateLabel[];
  readonly anchors: ReadonlyMap<string, XY>;
  readonly area: Box;
  readonly middle: number;
  readonly em: number;
  readonly slim: boolean;
  readonly onPicture: boolean;
  readonly highlight: string | null;
}

function leader(input: MarginInput, place: LabelPlace, anchor: XY): SceneNode[] {
  const { em, area } = input;
  const weight = em * 0.045;
  const outward = place.side === 'left' ? -1 : 1;
  const start = leaderStart(place, HOOK * em);
  const from = { x: start.x - outward * 0.3 * em, y: start.y };
  const knee = { x: start.x - outward * KNEE * em, y: start.y };
  const edge = place.side === 'left' ? area.x : area.x + area.width;
  const spot: SceneNode = { kind: 'circle', centre: anchor, radius: em * 0.09, classes: ['anchor'] };
  const share = (edge - knee.x) / (anchor.x - knee.x);
  // On the film the leader takes the film's ink, beside it the paper's.
  if (input.onPicture && share > 0 && share < 1) {
    const at = { x: edge, y: knee.y + (anchor.y - knee.y) * share };
    return [
      {
        kind: 'path',
        segments: [
          ['M', from.x, from.y],
          ['L', knee.x, knee.y],
          ['L', at.x, at.y],
        ],
        weight,
        classes: ['leader'],
      },
      group(['film'], [{ kind: 'line', from: at, to: anchor, weight, classes: ['leader'], halo: 'film' }, spot]),
    ];
  }
  return [
    {
      kind: 'path',
      segments: [
        ['M', from.x, from.y],
        ['L', knee.x, knee.y],
        ['L', anchor.x, anchor.y],
      ],
      weight,
      classes: ['leader'],
    },
    spot,
  ];
}

function lettering(label: PlateLabel, what: LabelBlock, place: LabelPlace, em: number): SceneNode[] {
  const nodes: SceneNode[] = [];
  const { box, side } = place;
  const anchor = side === 'left' ? 'end' : 'start';
  const x = side === 'left' ? box.x + box.width : box.x;
  what.lines.forEach((runs, i) => {
    nodes.push({
      kind: 'text',
      at: { x, y: box.y + (i * LINE + 0.95) * em },
      size: em,
      anchor,
      runs,
      classes: ['label-text'],
    });
  });
  const y = box.y + (what.lines.length * LINE + 0.55) * em;
  const inward = side === 'left' ? -1 : 1;
  let stateX = x;
  if (what.rule && label.band) {
    const left = side === 'left' ? x - RULE_LENGTH * em : x;
    nodes.push(bandRule(label, { x: left, y }, em));
    stateX = x + inward * (RULE_LENGTH + STATE_GAP) * em;
  }
  if (what.state) {
    nodes.push({
      kind: 'text',
      at: { x: stateX, y: y + 0.28 * em },
      size: em * 0.86,
      anchor,
      runs: [{ text: what.state }],
      classes: ['state-word'],
    });
  }
  return nodes;
}

/** The two columns beside the plate: where each label stands, its leader, its rule and its word. */
export function marginLabels(input: MarginInput): MarginLabels {
  const { em } = input;
  const blocks = input.labels.map((label) => block(label, input.slim ? SLIM : WIDEST));
  const wishes = blocks.map((b, i) => ({
    anchor: input.anchors.get(input.labels[i]!.measure) ?? null,
    width: b.width * em,
    height: b.height * em,
  }));
  const places = layOut(wishes, {
    area: input.area,
    middle: input.middle,
    gutter: 2.2 * em,
    gap: 0.62 * em,
    hook: HOOK * em,
    knee: KNEE * em,
  });
  const nodes: GroupNode[] = [];
  const boxes: LabelBox[] = [];
  input.labels.forEach((label, i) => {
    const place = places[i]!;
    const anchor = wishes[i]!.anchor;
    const side: MarginSide = place.side;
    boxes.push({ ...place.box, measure: label.measure, side });
    nodes.push({
      kind: 'group',
      classes: ['label', ...stateClasses(label, input.highlight)],
      data: { measure: label.measure },
      title: [
        label.words,
        label.text,
        stateWords[label.state],
        label.after ? t('after the cut {0}', label.after.text) : '',
        label.source ? t('usual range: {0}', label.source) : '',
      ]
        .filter((part) => part.length > 0)
        .join(', '),
      children: [...(anchor ? leader(input, place, anchor) : []), ...lettering(label, blocks[i]!, place, em)],
    });
  });
  return { nodes, boxes };
}
