import { languageInUse, wordsInUse } from '../../shared/language/words.ts';
import type { MadePdf, PdfQuestion } from '../../shared/report/pages/page-as-pdf.ts';

/** A page as PDF. What writes it, with its type, is a bundle of its own beside this one, and is loaded only here. */
export async function pdfOf(question: PdfQuestion): Promise<MadePdf> {
  const { pagePdf, useWords } = await import('../pdf/page-pdf.ts');
  useWords(wordsInUse(), languageInUse());
  return pagePdf(question);
}
