import { shownDate } from '../../shared/language/dates.ts';
import { fixed } from '../../shared/language/figures.ts';
import type { AlarmNote } from '../../shared/views/alarms.ts';
import type { CutSheet } from '../../shared/views/film-sheet.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';
import { cutKey } from './cut-choice.ts';
import { HeelSliders } from './heel-sliders.tsx';
import { GoToLine } from './go-to-line.tsx';
import { NotesList } from './notes-list.tsx';
import { Toggle, Toggles } from './toggles.tsx';

interface CutsProps {
  /** What is open, and comes before any plan. */
  readonly alarms?: readonly AlarmNote[];
  readonly cuts: readonly CutSheet[];
  /** The one that lies over the plate. */
  readonly laid: CutSheet | null;
  /** In a lesson whose key is not shown: what it would leave is kept back. */
  readonly isKept?: boolean;
}

/** Each plan and trim that is predicted on this film: what is cut, how the foot turns, what that would leave. */
export function CutsView({ alarms = [], cuts, laid, isKept = false }: CutsProps) {
  if (cuts.length === 0) return null;
  return (
    <section aria-labelledby="cuts">
      <h2 id="cuts">{t('Plans and trims on this film')}</h2>
      {alarms.length > 0 && (
        <div class="alarms" id="alarms">
          <NotesList notes={alarms} />
        </div>
      )}
      <div class="cuts">
        {cuts.map((cut) => (
          <CutView
            key={`${cut.kind}${cut.line}`}
            cut={cut}
            name={cutKey(cuts, cut)}
            isLaid={cut === laid}
            isAlarmed={alarms.length > 0}
            isKept={isKept}
          />
        ))}
      </div>
    </section>
  );
}

/** For the plate: a button a cut, by its name. */
export function CutToggles({ cuts, laid }: CutsProps) {
  const { pressCut } = useActions();
  const drawable = cuts.filter(({ after }) => after !== null);
  if (drawable.length === 0) return null;
  return (
    <Toggles label={t('Plan or trim laid over the plate')}>
      {drawable.map((cut) => (
        <Toggle pressed={cut === laid} title={nameOf(cut)} onPress={() => pressCut(cutKey(cuts, cut))}>
          {shortName(cut, drawable)}
        </Toggle>
      ))}
    </Toggles>
  );
}

function nameOf(cut: CutSheet): string {
  return `${headOf(cut)}: ${cut.cut}`;
}

const kinds = { plan: t('Plan'), trim: t('Trim') };

/** `Plan of 2026-03-04`. */
function headOf({ kind, date }: CutSheet): string {
  if (date === null) return kinds[kind];
  return kind === 'plan' ? t('Plan of {0}', shownDate(date)) : t('Trim of {0}', shownDate(date));
}

/** As short as tells it from the others: the row above the plate has little room. */
function shortName(cut: CutSheet, among: readonly CutSheet[]): string {
  const alike = among.filter(({ kind }) => kind === cut.kind);
  if (alike.length === 1) return kinds[cut.kind];
  return alike.filter(({ date }) => date === cut.date).length === 1 ? headOf(cut) : nameOf(cut);
}

interface CutProps {
  readonly cut: CutSheet;
  readonly name: string;
  readonly isLaid: boolean;
  /** Whether the alarms stand above. */
  readonly isAlarmed: boolean;
  readonly isKept: boolean;
}

function CutView({ cut, name, isLaid, isAlarmed, isKept }: CutProps) {
  const { pressCut } = useActions();
  return (
    <article class="cut">
      <h3>
        <GoToLine line={cut.line}>{headOf(cut)}</GoToLine>: {cut.cut}
      </h3>
      {cut.kind === 'plan' && cut.delta !== null && cut.sides === null && (
        <HeelSliders cut={cut} name={name} describedBy={isAlarmed ? 'alarms' : undefined} />
      )}
      <p>
        {isKept
          ? t('What it would leave is told once the key is shown.')
          : cut.sides
            ? sidewaysTurning(cut.delta)
            : turning(cut.delta, cut.deltaOnToe)}
      </p>
      {cut.broken.length > 0 && cut.notes.length === 0 && (
        <p role="status">{t('Breaks a limit: {0}.', cut.broken.join('; '))}</p>
      )}
      {cut.after && (
        <p class="toggles">
          <Toggle pressed={isLaid} onPress={() => pressCut(name)}>
            {t('Lay this over the plate')}
          </Toggle>
        </p>
      )}
      <NotesList notes={cut.notes} />
      {cut.rows.length > 0 && (
        <details open={isLaid}>
          <summary>{t('Before and after')}</summary>
          <BeforeAndAfter rows={cut.rows} />
        </details>
      )}
    </article>
  );
}

/** Positive where the heel comes down more than the toe. */
export function turning(delta: number | null, onToe: number | null = null): string {
  if (delta === null)
    return t(
      'What it would change cannot be told: place where heel and toe meet the ground, of a shod foot its bearing plane too, and give the film a scale.',
    );
  if (onToe !== null)
    return t(
      'The heel gets a plane of its own: on its heels the foot turns by {0}°, on its toe by {1}°. Limits are judged on the worse of the two; after it nothing is foretold until the next film.',
      fixed(delta, 1),
      fixed(onToe, 1),
    );
  const amount = `${fixed(Math.abs(delta), 1)}°`;
  if (!/[1-9]/.test(amount)) return t('The foot does not turn.');
  return delta > 0
    ? t('The heel comes down: the foot turns by {0}, and its angles to the ground fall by as much.', amount)
    : t('The toe comes down: the foot turns by {0}, and its angles to the ground rise by as much.', amount);
}

/** Positive where the outer side comes down more. */
function sidewaysTurning(delta: number | null): string {
  if (delta === null)
    return t(
      'What it would change cannot be told: place where the inner and the outer wall meet the ground, and give the film a scale.',
    );
  const amount = `${fixed(Math.abs(delta), 1)}°`;
  const unseen = t('Live sole is not visible here.');
  if (!/[1-9]/.test(amount)) return `${t('The foot does not turn.')} ${unseen}`;
  const turned =
    delta > 0
      ? t('The outer side comes down: seen from in front, the foot turns by {0}.', amount)
      : t('The inner side comes down: seen from in front, the foot turns by {0}.', amount);
  return `${turned} ${unseen}`;
}

export function BeforeAndAfter({ rows }: Pick<CutSheet, 'rows'>) {
  return (
    <table class="cut-table">
      <thead>
        <tr>
          <th scope="col">{t('Measure')}</th>
          <th scope="col">{t('Before')}</th>
          <th scope="col">{t('After, predicted')}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ words, before, after }) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            <td class="before">{before}</td>
            <td class="after">{after}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
