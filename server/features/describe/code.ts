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
    never !== undefined && `This cannot be accepted. ${never}`,
    docs !== null && `[More about ${code}](${docs}${pageOf(code)})`,
  );
}
