import { counted, t } from '../language/words.ts';
import { sayOverstated } from '../findings/rules/scale-from-file.ts';
import { footWords } from '../findings/wording/wording.ts';
import { otherFoot } from '../trim/bone-scale.ts';
import type { StudiedFilm } from '../trim/study.ts';

export const scaleOrigins = ['marker', 'number', 'file', 'bone', 'bone of the other foot'] as const;

/** What the scale of a film rests on. */
export interface ScaleOrigin {
  readonly from: (typeof scaleOrigins)[number];
  /** A sentence or two; null where the line of the scale says it all. */
  readonly words: string | null;
}

/** Null where there is no scale. */
export function scaleOrigin({ film, stored, bone }: Pick<StudiedFilm, 'film' | 'stored' | 'bone'>): ScaleOrigin | null {
  switch (film.scale?.kind) {
    case 'marker':
      return { from: 'marker', words: null };
    case 'pixel':
      return { from: 'number', words: null };
    case 'dicom': {
      if (!stored || !('mmPerPx' in stored)) return null;
      const { words, overstates } = stored;
      return { from: 'file', words: overstates ? `${words} ${sayOverstated(overstates)}` : words };
    }
    case 'bone': {
      if (!bone || !('input' in bone)) return null;
      const { from, films, input } = bone;
      const whose = from === 'foot' ? t('this foot') : t('the {0}', footWords[otherFoot[film.foot]]);
      const those = counted(films, 'one film of {1}', '{0} films of {1}', whose);
      const known = `${(100 * input.relativeSd).toFixed(0)} %`;
      return {
        from: from === 'foot' ? 'bone' : 'bone of the other foot',
        words: t(
          'Scale from the bone: its size as on {0}. Every length is known to {1} at best (one standard deviation).',
          those,
          known,
        ),
      };
    }
    default:
      return null;
  }
}
