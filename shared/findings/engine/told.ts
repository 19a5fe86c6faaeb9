import type { Fix } from '../../notation/problems.ts';
import type { StudiedVisit, Study } from '../../trim/study.ts';
import { rules } from '../catalogue.ts';
import { cutFixes } from '../limits/cut-fixes.ts';
import { cutRules } from '../limits/cut-rules.ts';
import type { Finding } from '../finding.ts';
import { PastCuts } from './past.ts';
import { Recall } from './remembered.ts';
import type { Cut } from '../../record/schema.ts';
import { footWords, sentence } from '../wording/wording.ts';
import { toFinding, type Remark, type Rule, type RuleContext } from '../rule.ts';
import { inTextOrder } from './text-order.ts';
import { WatchedSeries } from './watched-series.ts';

/** What the rules tell of a case as a whole. */
export function* ofCase(study: Study): Iterable<Finding> {
  for (const rule of rules)
    if (rule.onCase) for (const { start, ...remark } of rule.onCase(study)) yield toFinding(rule, remark, start);
}

/** What the rules tell of every visit, in the order of the text: findings of a visit lie in its block. */
export function ofVisits(study: Study): readonly Finding[] {
  const series = new WatchedSeries(study.series);
  const { record, reference, trim } = study;
  const { weights: _, ...animal } = study.animal;
  const context: RuleContext = { animal, record, reference, trim, series };
  const recall = new Recall(context, study.series);
  const cuts = new PastCuts(study);
  const all: Finding[] = [];
  for (const visit of study.visits) {
    const told = recall.of(visit, () => {
      const findings = inTextOrder(ofVisit(visit, context));
      return { findings, looks: series.taken() };
    });
    // Marked each time: whether a cut is past depends on later visits, which the remembered findings do not know.
    for (const finding of cuts.marked(told, visit)) all.push(finding);
  }
  return all;
}

const onVisit = rules.filter((rule) => rule.onVisit);
const onReading = rules.filter((rule) => rule.onReading);
const onCut = rules.filter((rule) => rule.onCut);

function ofVisit(studied: StudiedVisit, study: RuleContext): Finding[] {
  const { start } = studied.visit;
  const all: Finding[] = [];
  for (const rule of onVisit)
    for (const remark of rule.onVisit?.(studied, study) ?? []) all.push(toFinding(rule, remark, start));
  for (const film of studied.films)
    for (const reading of film.readings)
      for (const rule of onReading)
        for (const remark of rule.onReading?.(film, reading, study) ?? []) all.push(toFinding(rule, remark, start));
  for (const cut of studied.cuts) {
    // The fixes are the same for every limit that a cut breaks and take a search, so once a cut. A trim is done: it has none.
    let waysOut: readonly Fix[] | null = null;
    for (const rule of onCut)
      for (const told of rule.onCut?.(cut, study) ?? []) {
        const remark = ofItsFoot(told, cut.cut);
        const fixes =
          limited.has(rule) && cut.cut.kind === 'plan'
            ? [...(remark.fixes ?? []), ...(waysOut ??= cutFixes(cut, study))]
            : null;
        all.push(toFinding(rule, fixes ? { ...remark, fixes } : remark, start));
      }
  }
  return all;
}

/** Where one trim is of several feet, what is told says of which. */
function ofItsFoot(remark: Remark, { foot, feet }: Cut): Remark {
  if (feet.length < 2 || remark.message.includes(footWords[foot])) return remark;
  return { ...remark, message: `${sentence(footWords[foot])}: ${remark.message}` };
}

const limited = new Set<Rule>(cutRules);
