// Words that go past `t`, for the check that looks for such; not a part of anything.
import { t } from '../../shared/language/words.ts';

export const turning = (name: string) => (name === '' ? 'The foot does not turn.' : `${name} is not there`);

export const Part = ({ name }: { readonly name: string }) => (
  <label class="heel slider" aria-label="Layers" title={name === '' ? t('Nothing here') : 'Save it again'}>
    Heel down {t('{0} mm', name)}
  </label>
);
