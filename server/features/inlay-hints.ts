import { t } from '../../shared/language/words.ts';
import type { InlayHint } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { footWords, say, sayWithSpread, wordsFor } from '../../shared/findings/wording/wording.ts';
import type { Span } from '../../shared/notation/tree.ts';
import { sidesOf } from '../../shared/trim/side-cut.ts';
import type { StudiedCut, StudiedFilm, Study } from '../../shared/trim/study.ts';
import { headersOf } from '../text/every-statement.ts';

/** Behind the headers of films and cuts, what they come to. */
export function inlayHints(document: TextDocument, { study, tree }: Inspection, { start, end }: Span): InlayHint[] {
  const headers = headersOf(tree);
  const told = [
    ...study.films.map((film) => ({ at: film.visit.start + film.film.at.start, says: ofFilm(film) })),
    ...study.cuts.map((cut) => ({ at: cut.visit.start + cut.cut.at.start, says: ofCut(cut, study) })),
  ];
  return told
    .flatMap(({ at, says }) => {
      const header = headers.get(at);
      return says && header && start <= header.end && header.end <= end ? [{ at: header.end, says }] : [];
    })
    .sort((a, b) => a.at - b.at)
    .map(({ at, says }) => ({ position: document.positionAt(at), label: says, paddingLeft: true }));
}

/** Of several readers the first whose landmarks make a frame, as everywhere that one number stands for a film. */
function ofFilm({ film, readings }: StudiedFilm): string {
  const values = readings.find(({ taking }) => taking.frame)?.taking.values;
  const angle = values?.get('palmar-angle');
  const sole = values?.get('sole-depth.tip');
  return [
    angle && `${wordsFor(angle.measure, film.foot)} ${sayWithSpread(angle)}`,
    sole && t('sole {0}', say(sole.value, sole.unit)),
  ]
    .filter((part) => part !== undefined)
    .join(', ');
}

function ofCut(studied: StudiedCut, { series, trims }: Study): string {
  const { cut, size, prediction } = studied;
  const nothing = size.heelDown === 0 && size.toeDown === 0 && size.toeBack === 0;
  const by = prediction && say(prediction.delta, 'deg');
  const turns =
    by === null || nothing ? [] : [prediction?.onToe ? t('on its heels turns {0}', by) : t('turns {0}', by)];
  const angle = nothing ? undefined : prediction?.values.get('palmar-angle');
  const tilt = sidesOf(studied, series, trims)?.prediction?.values.get('p3-tilt');
  const told = [angle, tilt].flatMap((one) =>
    one ? `${wordsFor(one.measure, cut.foot)} ${say(one.value, one.unit)}` : [],
  );
  const says = [...turns, ...told].join(', ');
  return says !== '' && cut.feet.length > 1 ? `${footWords[cut.foot]}: ${says}` : says;
}
