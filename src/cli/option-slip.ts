import { t } from '../../shared/language/words.ts';

/** What is wrong with an option, as a sentence of ours: Node tells it in English alone. Its own words where they are of another kind. */
export function optionSlip(error: unknown): string {
  const { code, message } = error as Error & { readonly code?: string };
  const option = /'(-{1,2}[^\s'=]+)/.exec(message)?.[1];
  if (option !== undefined && code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') return t('there is no option {0}', option);
  if (option !== undefined && code === 'ERR_PARSE_ARGS_INVALID_OPTION_VALUE')
    return message.includes('does not take')
      ? t('{0} takes no value', option)
      : t('{0} wants a value: {0} VALUE, or {0}=VALUE where that begins with a dash', option);
  return message.split('\n')[0] ?? message;
}
