import { courseSources } from '../../shared/course/course-sources.ts';

/** Markup, a formula, a command, what turns the direction of writing, and what XML cannot hold, in one. */
export const HOSTILE =
  '"><img src=x onerror="window.ran=true"><script>window.ran=true</script><b>\'`=cmd|x!A0 ]]>&lt;\u202Egnp javascript:window.ran=true';

/** Fields that hold what a person wrote, or a sentence with it. */
const texts = new Set([
  'caseName',
  'fileName',
  'title',
  'reader',
  'markerWords',
  'message',
  'accepted',
  'words',
  'text',
  'usualText',
  'source',
  'tape',
  'cut',
  'before',
  'after',
  'comfort',
  'weight',
  'interval',
  'chance',
  'family',
  'worn',
  'sourceWords',
  'shoe',
]);
const lists = new Set(['published', 'missing', 'leave', 'done', 'seen', 'said', 'broken']);
/** How something was taken is one of these and no text. */
const taken: ReadonlySet<string> = new Set(courseSources);

/** The same message with every text that could come from a case replaced. */
export function withHostileTexts<T>(value: T, name = ''): T {
  if (typeof value === 'string' && name === 'source' && taken.has(value)) return value;
  if (typeof value === 'string') return (texts.has(name) || lists.has(name) ? HOSTILE : value) as T;
  if (Array.isArray(value)) return value.map((one) => withHostileTexts<unknown>(one, lists.has(name) ? name : '')) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, part]) => [key, withHostileTexts<unknown>(part, key)]),
  ) as T;
}

/** A case with such a text wherever a person may write one. */
export function hostileCase(text: string): string {
  const written = HOSTILE.replaceAll('\\', '\\\\').replaceAll('"', '\\"');
  return text
    .replaceAll(/"(?!films\/)[^"\n]*"/g, `"${written}"`)
    .replaceAll(/^( *\| ).*$/gm, (_line, start: string) => start + HOSTILE);
}
