import { t } from '../../../shared/language/words.ts';
import { formsRangeWords } from '../../../shared/notation/range-words.ts';
import { writeForm, type Form } from '../../../shared/notation/signature.ts';
import type { WordRow } from '../../../shared/notation/vocabulary.ts';
import { notation, paragraphs } from './markdown.ts';

export function writeLine(word: string, form: Form): string {
  return form.length === 0 ? word : `${word} ${writeForm(form)}`;
}

/** What a word takes, what it is for, and a line that shows it. */
export function describeRow(row: WordRow): string {
  return paragraphs(
    notation(...row.takes.map((form) => writeLine(row.word, form))),
    [row.doc, formsRangeWords(row.takes)].filter((words) => words !== '').join(' '),
    t('For example:'),
    notation(row.example),
  );
}
