import { refusalWords } from '../../picture/refusal-words.ts';
import type { Rule } from '../rule.ts';

export const pictureMissing: Rule = {
  code: 'picture/missing',
  severity: 'warning',
  title: 'Picture that is not there',
  about:
    'A film or a photo names a picture, and no file is there. What is placed on it is measured all the same, but nobody can look at it again: the path has a slip, or the picture was never copied beside the case file. So is a path that names a folder, no kind of picture, or a place that pictures of the case may not be in. It is only looked whether the file is there. Where nobody can look, as in a browser without files, nothing is told.',
  *onCase({ record, missing }) {
    for (const { start, is } of record.visits)
      for (const { path } of [...is.films, ...is.pictures])
        if (path.text.trim() === '') yield { start, at: path.at, message: refusalWords('no name', path.text) };
        else {
          const why = missing.get(path.text);
          if (why) yield { start, at: path.at, message: refusalWords(why, path.text) };
        }
  },
};
