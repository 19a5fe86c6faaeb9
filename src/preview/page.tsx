import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { wantedWords } from '../../shared/views/about-measures.ts';
import { isPlaced, stepsFor } from '../../shared/views/what-to-place.ts';
import type { LayerName } from '../../shared/drawing/scene.ts';
import type { FilmSheet } from '../../shared/views/film-sheet.ts';
import type { PageState, SheetsMessage } from '../messages/messages.ts';
import { t } from '../../shared/language/words.ts';
import { useActions } from './actions.ts';
import { cutKey, laidCut } from './cut-choice.ts';
import { CutsView, CutToggles } from './cuts-view.tsx';
import { landmarkOn } from '../../shared/views/film-choice.ts';
import type { CourseProps } from './course/course-view.tsx';
import type { PlateInput } from '../../shared/drawing/plate/plate.ts';
import type { LessonMarks } from '../../shared/views/lesson-sheet.ts';
import type { AgreementProps } from './agreement/agreement-view.tsx';
import { LessonBar } from './lesson-bar.tsx';
import type { LessonProps } from './lesson-view.tsx';
import { ViewSwitch } from './view-switch.tsx';
import { FirstStep } from './first-step.tsx';
import { FilmRow } from './film-row.tsx';
import { MeasureTable } from './measure-table.tsx';
import { FoldedNotes } from './notes-list.tsx';
import { LayerToggles } from './layer-toggles.tsx';
import { OverChoice, OverNotes, overOn } from './over-choice.tsx';
import type { PageContent } from './page-model.ts';
import { PlaceButton } from './placing/place-button.tsx';
import type { PlacingModel } from './placing/placing-model.ts';
import type { PlacingProps } from './placing/placing-view.tsx';
import { pictureNamed, type PictureFound } from './picture-of.ts';
import { HandTables, NoFilmReading, PairTables, VisitWords } from './hand-view.tsx';
import type { PlansProps } from './plans-view.tsx';
import { PlateView } from './plate-view.tsx';
import { emptyPlate, filmPlate } from './plate.ts';
import { cutsWith, type TriedCut } from './tried-cut.ts';
import { fileNameOf } from './take/file-name.ts';
import { drawingMenu } from './take/drawing-menu.ts';
import { PlateTake } from './take/plate-take.tsx';
import { CaseStrip } from './strip/case-strip.tsx';
import { filmsOfVisit, visitOf } from './strip/visit-choice.ts';
import { OpenAlarms } from './open-alarms.tsx';
import { couldNotLoad } from './could-not-load.ts';
import { Toggle } from './toggles.tsx';
import { LaterPart, usePart } from './use-part.ts';

// Most look at a film: what placing and the course take beside that is loaded when they begin.
const placingPart = new LaterPart<PlacingProps>(async () => (await import('./placing/placing-view.tsx')).PlacingView);
const coursePart = new LaterPart<CourseProps>(async () => (await import('./course/course-part.ts')).coursePart());

const agreementPart = new LaterPart<AgreementProps>(async () =>
  (await import('./agreement/agreement-part.ts')).agreementPart(),
);

const lessonPart = new LaterPart<LessonProps>(async () => (await import('./lesson-view.tsx')).LessonView);
const plansPart = new LaterPart<PlansProps>(async () => (await import('./plans-view.tsx')).PlansView);

const noFilm = t('Write a film into a visit: film LF lateral "films/name.png".');
const caution = t(
  'Decision support only. Diagnosis, radiographs and pain belong to the vet; local law decides who may trim or shoe.',
);

interface PageProps {
  readonly placing: PlacingModel;
  readonly shown: PageContent;
  readonly sheet: FilmSheet | null;
  readonly found: PictureFound | null;
}

/** The whole page from what is known. */
export function Page({ placing, shown, sheet, found }: PageProps) {
  const { message, says, trouble, line, kept, tried, course, readings, said } = shown;
  // A course would tell the values that a lesson keeps back.
  const isCourse = kept.view === 'course' && message !== null && !message.keepsBack;
  const visit = message && visitOf(message.visits, sheet?.line ?? line);
  const told = visit ?? message?.visits.at(-1) ?? null;
  const isWithoutFilm =
    message !== null &&
    !sheet &&
    (message.tapes.length > 0 || (told !== null && told.done.length + told.seen.length > 0));
  const [broken, setBroken] = useState(false);
  const isPlacing = placing.isOn && sheet !== null;
  const PlacingView = usePart(placingPart, isPlacing, () => setBroken(true));
  const isCourseWanted = isCourse || (isWithoutFilm && message.tapes.length > 0);
  const isAgreement = kept.view === 'agreement' && message !== null;
  const AgreementView = usePart(agreementPart, isAgreement, () => setBroken(true));
  const CourseView = usePart(coursePart, isCourseWanted, () => setBroken(true));
  if (PlacingView && placing.isOn && sheet && found)
    return (
      <PlacingView
        model={placing}
        sheet={sheet}
        found={found}
        proposing={groundsOf(message)}
        line={line}
        drawing={kept.shows.drawing}
        isAlone={isKeptBack(message?.lesson ?? null)}
        trouble={trouble}
      />
    );
  return (
    <div
      class={isCourse || isAgreement || isWithoutFilm ? 'page with-course' : sheet ? 'page with-film' : 'page empty'}
    >
      {(trouble !== null || broken) && (
        <p class="trouble" role="status">
          {trouble ?? couldNotLoad()}
        </p>
      )}
      <header>
        {message && (
          <div class="masthead">
            <h1>{message.caseName ?? message.fileName}</h1>
            {!message.keepsBack && <ViewSwitch view={kept.view ?? 'film'} isReadAgain={isReadAgain(message)} />}
          </div>
        )}
        {message && <OpenAlarms alarms={message.alarms} />}
        {message && <CaseStrip message={message} current={visit} />}
        {message?.lesson && !isCourse && !isAgreement && <LessonBar lesson={message.lesson} />}
        {message && sheet && !isCourse && !isAgreement && (
          <FilmRow films={filmsOfVisit(message.films, visit)} current={sheet} />
        )}
      </header>
      {isCourseWanted && !CourseView && <p class="aside">{t('The course is being computed.')}</p>}
      {isAgreement ? (
        AgreementView ? (
          <AgreementView
            readings={readings}
            caseName={message.caseName ?? message.fileName}
            choice={kept.agreement ?? null}
            said={said}
          />
        ) : (
          <p class="aside">{t('The agreement is being computed.')}</p>
        )
      ) : isCourse ? (
        CourseView && (
          <CourseView
            course={course}
            caseName={message.caseName ?? message.fileName}
            fileName={message.fileName}
            choice={kept.course ?? null}
            line={sheet?.line ?? line}
            said={said}
          />
        )
      ) : message && sheet && found ? (
        <FilmParts
          message={message}
          sheet={sheet}
          found={found}
          line={line}
          kept={kept}
          tried={tried}
          said={said}
          onPlace={() => placing.open(sheet)}
        />
      ) : isWithoutFilm ? (
        <>
          <p class="aside">{noFilm}</p>
          <NoFilmReading tapes={message.tapes} visit={told} />
          {message.tapes.length > 0 && CourseView && (
            <CourseView
              course={course}
              caseName={message.caseName ?? message.fileName}
              fileName={message.fileName}
              choice={kept.course ?? null}
              line={line}
              said={said}
            />
          )}
        </>
      ) : (
        <>
          <figure>
            <PlateView input={emptyPlate(says ?? noFilm)} hides={[]} lineOf={() => null} onPress={() => undefined} />
          </figure>
          <FirstStep isCase={message !== null} />
        </>
      )}
      <footer>{caution}</footer>
    </div>
  );
}

/** Whether several readings of one film stand in the case. */
function isReadAgain({ films }: SheetsMessage): boolean {
  const seen = new Set<string>();
  return films.some(({ picture, foot, view, kind }) => {
    const film = JSON.stringify([picture, foot, view, kind]);
    if (seen.has(film)) return true;
    seen.add(film);
    return false;
  });
}

interface FilmProps {
  readonly message: SheetsMessage;
  readonly sheet: FilmSheet;
  readonly found: PictureFound;
  readonly line: number | null;
  readonly kept: PageState;
  readonly tried: TriedCut | null;
  /** How the last thing that was asked for went. */
  readonly said: string | null;
  onPlace(): void;
}

function FilmParts({ message, sheet, found, line, kept, tried, said, onPlace }: FilmProps) {
  const { shows, hidden, cut: chosenCut } = kept;
  const { go } = useActions();
  const landmark = landmarkOn(sheet, line);
  const cuts = cutsWith(sheet, tried);
  const written = tried
    ? sheet.cuts.find((cut) => cutKey(sheet.cuts, cut) === tried.cut)
    : laidCut(sheet, chosenCut, line);
  const laid = written ? (cuts[sheet.cuts.indexOf(written)] ?? null) : null;
  const visit = visitOf(message.visits, sheet.line);
  /** What stands in the visit of the film. */
  const isHere = <T extends { readonly line: number }>(all: readonly T[]): readonly T[] =>
    visit ? all.filter((one) => visit.line <= one.line && one.line <= visit.endLine) : [];
  // A normal foot over the film would show where its places are to be sought.
  const laidFoot = isKeptBack(message.lesson) ? null : overOn(sheet, kept.over, message);
  const over = laidFoot?.over ?? null;
  const beside = shows.beside === true && shows.picture && shows.drawing && found.picture !== null;
  const { lesson } = message;
  const isKept = isKeptBack(lesson);
  // What the key says of the places is lost among letters and lines of measures.
  const [withKey, setWithKey] = useState(true);
  const marks = withKey && !laid ? (lesson?.marks ?? null) : null;
  const shown = marks
    ? { shows: { ...shows, lettering: false }, highlight: landmark, cut: null, over, key: keyOnPlate(marks) }
    : { shows, highlight: landmark, cut: laid, over };
  /** Of the case and, once it is shown, of the key. */
  const plans = [...cuts, ...(lesson?.marks?.cuts ?? [])].filter(
    ({ kind, after }) => kind === 'plan' && after !== null,
  );
  const [, setBroken] = useState(false);
  const PlansView = usePart(plansPart, plans.length > 1, () => setBroken(true));
  const LessonView = usePart(lessonPart, lesson?.marks != null, () => setBroken(true));
  const input = found.wait ? null : filmPlate(sheet, beside ? null : found.picture, shown);
  const hiddenLayers: readonly LayerName[] = [...hidden, ...(shows.drawing && !marks ? [] : drawingLayers)];
  const caseName = message.caseName ?? message.fileName;
  return (
    <>
      <figure>
        <figcaption>
          <span class="title">{sheet.title}</span>
          <div class="plate-tools">
            <PlaceButton found={found} onPlace={onPlace} />
            <div class="laid-tools">
              {lesson?.marks && (
                <p class="toggles">
                  <Toggle pressed={marks !== null} onPress={() => setWithKey(!withKey)}>
                    {t('Key on the film')}
                  </Toggle>
                </p>
              )}
              <CutToggles cuts={cuts} laid={laid} />
              {!isKept && <OverChoice sheet={sheet} films={message.films} chosen={kept.over} animal={message.animal} />}
            </div>
            <LayerToggles shows={shows} hidden={hidden}>
              {input && <PlateTake input={input} hidden={hiddenLayers} name={fileNameOf(caseName, sheet.title)} />}
            </LayerToggles>
          </div>
        </figcaption>
        <div class={beside ? 'pair' : undefined} data-vscode-context={drawingMenu}>
          {beside && <FilmAlone sheet={sheet} found={found} />}
          <PlateView
            input={input}
            hides={hiddenLayers.map((layer) => `no-${layer}`)}
            lineOf={(name) => sheet.placed[name]?.line ?? null}
            onPress={({ line, measure }) => {
              // A label on the plate has no line of its own: its row does.
              const row = measure === null ? null : sheet.rows.find((one) => one.measure === measure);
              const to = row?.line ?? line;
              if (to !== null) go(to);
            }}
          />
        </div>
        {said !== null && (
          <p class="aside" role="status">
            {said}
          </p>
        )}
        {found.says !== null && <p class="picture-says">{found.says}</p>}
        {!isKept && <OverNotes laid={laidFoot} sheet={sheet} animal={message.animal} />}
        {sheet.said.map((words) => (
          <p class="aside setup">{words}</p>
        ))}
        {sheet.scaleWords !== null && <p class="aside scale-words">{sheet.scaleWords}</p>}
        <NextPlaces sheet={sheet} wanted={kept.placing?.wanted ?? []} />
      </figure>
      <div class="reading">
        {LessonView && lesson?.marks && <LessonView marks={lesson.marks} />}
        <CutsView alarms={message.alarms} cuts={cuts} laid={laid} isKept={isKept} />
        {PlansView && plans.length > 1 && <PlansView sheet={sheet} cuts={cuts} lesson={lesson} />}
        <Findings sheet={sheet} />
        <MeasureTable sheet={sheet} landmark={landmark} />
        <HandTables tapes={isHere(message.tapes).filter(({ foot }) => foot === sheet.foot)} />
        <PairTables pairs={isHere(message.pairs).filter(({ left, right }) => [left, right].includes(sheet.foot))} />
        <VisitWords visit={visit} />
      </div>
    </>
  );
}

const isKeptBack = (lesson: SheetsMessage['lesson']): boolean => lesson !== null && !lesson.isShown;

const keyOnPlate = ({ points }: LessonMarks): NonNullable<PlateInput['key']> =>
  points.map(({ words, state, key, own }) => ({ words: words, state, at: key, own }));

/** The film before the one that is shown, with its picture where that can be had. */
function groundsOf(message: SheetsMessage | null): PlacingProps['proposing'] {
  const before = message?.before ?? null;
  const picture = message && before ? pictureNamed(message.pictures, before.picture) : undefined;
  return { before, pictureBefore: picture?.kind === 'found' ? picture.href : null };
}

/** What is turned off with the drawing; the measures and the ground stay on the film. */
const drawingLayers: readonly LayerName[] = ['bones', 'capsule', 'soft'];

/** The film as it was taken, without a line on it. */
function FilmAlone({ sheet, found }: Pick<FilmProps, 'sheet' | 'found'>) {
  const shows = { picture: true, drawing: false, lettering: false };
  return (
    <PlateView
      input={found.wait ? null : filmPlate(sheet, found.picture, { shows, highlight: null, cut: null, over: null })}
      hides={[...drawingLayers, 'landmarks', 'ground'].map((layer) => `no-${layer}`)}
      lineOf={() => null}
      onPress={() => undefined}
    />
  );
}

function Findings({ sheet: { notes } }: { readonly sheet: FilmSheet }) {
  if (notes.length === 0) return null;
  return (
    <section aria-labelledby="findings">
      <h2 id="findings">{t('What there is to say')}</h2>
      <FoldedNotes notes={notes} />
    </section>
  );
}

/** The one next step at a film that has some landmarks; the plate itself says it where there is none. */
function NextPlaces({ sheet, wanted }: { readonly sheet: FilmSheet; readonly wanted: readonly string[] }) {
  const open = stepsFor(sheet, wanted).filter((step) => !isPlaced(step, sheet));
  if (open.length === 0 || Object.keys(sheet.placed).length === 0) return null;
  const words = wantedWords(sheet, wanted).join(', ');
  return (
    <details class="missing">
      <summary>
        {open.length === 1
          ? t('One place is open yet of what is wanted: {0}', words)
          : t('{0} places are open yet of what is wanted: {1}', open.length, words)}
      </summary>
      <dl>
        {open.map(({ key, name, advice }) => (
          <Fragment key={key}>
            <dt>{name}</dt>
            <dd>{advice}</dd>
          </Fragment>
        ))}
      </dl>
    </details>
  );
}
