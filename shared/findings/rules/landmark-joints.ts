import { t } from '../../language/words.ts';
import type { Rule } from '../rule.ts';
import { say } from '../wording/wording.ts';
import { lineOf, linesOf, readerWords } from './landmark-lines.ts';
import { suspectsOf } from '../landmarks/landmark-suspects.ts';

/**
 * Short against long pastern bone. The pastern joint moves little under load, and a broken axis breaks at the coffin
 * joint below it; so many degrees is a point beside its joint, or a limb that did not stand. Judgement of ours.
 */
const most = 40;

export const landmarkJoints: Rule = {
  code: 'landmark/joints',
  severity: 'warning',
  title: 'Joint centres not in line',
  about:
    'The centres of coffin, pastern and fetlock joint lie nearly in a line, as the pastern joint bends little. Where they bend by more than 40 degrees (a judgement of ours, no source) one of them is off, or the limb was not loaded.',
  *onReading(film, reading) {
    const { frame } = reading.taking;
    const coffin = frame?.at('coffin.centre');
    const pastern = frame?.at('pastern.centre');
    const fetlock = frame?.at('fetlock.centre');
    if (!coffin || !pastern || !fetlock) return;
    const { names } = suspectsOf(film, reading);
    if ((['coffin.centre', 'pastern.centre', 'fetlock.centre'] as const).some((name) => names.has(name))) return;
    const lower = Math.atan2(pastern.y.value - coffin.y.value, pastern.x.value - coffin.x.value);
    const upper = Math.atan2(fetlock.y.value - pastern.y.value, fetlock.x.value - pastern.x.value);
    const turned = ((upper - lower) * 180) / Math.PI;
    const bend = Math.abs(turned > 180 ? turned - 360 : turned <= -180 ? turned + 360 : turned);
    if (bend <= most) return;
    yield {
      at: lineOf('pastern.centre', film, reading),
      message: t(
        'The line through the joint centres bends by {0} at the pastern joint{1}; more than {2}° is hardly a joint (judgement of ours). Look at «pastern.centre» first, then at «coffin.centre» and «fetlock.centre», and place the one that is off again.',
        say(bend, 'deg'),
        readerWords(reading),
        most,
      ),
      related: linesOf(['coffin.centre', 'fetlock.centre'], film, reading),
      value: bend,
      limit: most,
      source: t('judgement of ours, no source'),
    };
  },
};
