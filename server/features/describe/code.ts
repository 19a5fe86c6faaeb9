import { t } from '../../../shared/language/words.ts';
import { whyNever } from '../../../shared/findings/engine/accepted.ts';
import { pageOf } from '../../../shared/findings/catalogue.ts';
import type { CodeRow } from '../../../shared/findings/code-row.ts';
import { paragraphs } from './markdown.ts';

/** What a code of a finding means, whether it may be accepted, and where its page is. `docs` is the folder of the pages. */
export function describeCode({ code, severity, title, about }: CodeRow, docs: string | null): string {
  const never = whyNever(code);
  return paragraphs(
    `**${title}** · ${severity}`,
    about,
    never !== undefined && t('This cannot be accepted. {0}', never),
    docs !== null && t('[More about {0}]({1}{2})', code, docs, pageOf(code)),
  );
}
