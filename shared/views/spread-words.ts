import { enough, isEnough, type OwnSpread } from '../agreement/own-spread.ts';
import { fixed } from '../language/figures.ts';
import { counted, t } from '../language/words.ts';
import { readerWords } from './reader-words.ts';

/** What is known of a reader's own spread, without its interval: `0.48 mm, of 6 films read again, 146 degrees of freedom`. */
export const spreadWords = ({ mm, df, films }: OwnSpread): string =>
  t(
    '{0} mm, of {1}, {2} degrees of freedom',
    fixed(mm, 2),
    counted(films, 'one film read again', '{0} films read again'),
    df,
  );

/** Why it is not written; null where it is enough. */
export const notEnough = (spread: OwnSpread): string | null =>
  isEnough(spread)
    ? null
    : t(
        '{0}: {1}. Too few to be written: it takes {2} films read again and {3} degrees of freedom.',
        readerWords(spread.reader),
        spreadWords(spread),
        enough.films,
        enough.df,
      );
