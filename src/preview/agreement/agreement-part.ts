import { AGREEMENT_RULES } from '../../../shared/drawing/agreement/agreement-ink.ts';
import { COURSE_RULES } from '../../../shared/drawing/course/course-ink.ts';
import { themedInk } from '../../../shared/drawing/ink.css.ts';
import { adoptInk } from '../adopt-ink.ts';
import { AgreementView } from './agreement-view.tsx';

/** Agreement with the ink of its drawings. */
export function agreementPart(): typeof AgreementView {
  adoptInk(themedInk(COURSE_RULES + AGREEMENT_RULES));
  return AgreementView;
}
