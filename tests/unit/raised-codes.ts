import { acrossFiles } from '../../shared/findings/across/across-files.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import type { StoredScale } from '../../shared/measures/take.ts';
import { notUtf8, tooLarge } from '../../shared/findings/engine/file-problems.ts';
import { boneCase } from './bone-cases.ts';
import { stoodFlatter } from './moved-foot.ts';
import { caseText, filmText } from './plain-foot.ts';

const sheet = (line: string): string => `hoof 1\n\ncase "X"\n  ${line}\n`;
const visit = (line: string): string => `hoof 1\n\ncase "X"\n\nvisit 2026-03-04\n  ${line}\n`;
const film = (line: string): string => visit(`film LF lateral "x.png"\n    ${line}`);
const plan = (lines: string, places = {}): string => caseText(`${filmText(places)}\n\n  plan LF\n    ${lines}`);

/** Each code with a text that raises it, the place that it is told at marked. */
// prettier-ignore
export const raised: Readonly<Record<string, string>> = {
  'notation/empty': '⟦⟧',
  'notation/version-missing': '⟦case⟧ "X"\n',
  'notation/version-newer': '⟦hoof 2⟧\n',
  'notation/unknown-word': visit('⟦wieght⟧ 512 kg'),
  'notation/misplaced-word': sheet('⟦heel⟧ down 8 mm'),
  'notation/unknown-landmark': film('⟦p3.tpi⟧ @ 1, 2'),
  'notation/unknown-choice': visit('pulse ⟦lf⟧ bounding'),
  'notation/missing-argument': visit('⟦feed⟧'),
  'notation/unexpected': visit('feed ⟦soaked⟧ hay'),
  'notation/decimal-comma': visit('condition ⟦6,5⟧'),
  'notation/missing-unit': visit('weight ⟦512⟧'),
  'notation/wrong-unit': visit('weight 512 ⟦mm⟧'),
  'notation/open-text': visit('feed ⟦"hay⟧'),
  'notation/text-escape': visit('film LF lateral ⟦"films\\a.png"⟧'),
  'notation/date-form': 'hoof 1\nvisit ⟦2026-3-4⟧\n',
  'notation/no-such-date': 'hoof 1\nvisit ⟦2026-02-30⟧\n',
  'notation/number-range': visit('obel ⟦5⟧'),
  'notation/code-form': sheet('microchip ⟦9850000000000⟧'),
  'record/duplicate-landmark': film('p3.tip @ 1, 2\n    ⟦p3.tip⟧ @ 3, 4'),
  'record/duplicate-word': visit('weight 512 kg\n  ⟦weight⟧ 500 kg'),
  'record/duplicate-case': 'hoof 1\ncase "A"\n⟦case⟧ "B"\n',
  'record/contradiction': visit('pulse LF bounding\n  ⟦pulse LF RF normal⟧'),
  'record/dates-backwards': 'hoof 1\nvisit 2026-03-04\nvisit ⟦2026-03-03⟧\n',
  'lesson/key': sheet('key by ⟦"Rowan"⟧'),
  'record/next-date': visit('next ⟦2026-03-03⟧'),
  'record/microchip': sheet('microchip ⟦985999999999999⟧'),
  'record/not-measured': visit('film LF venogram "x.png"\n    ⟦scale⟧ 0.1 mm/px'),
  'record/scale': film('ground ⟦1, 2 .. 1, 2⟧'),
  'case/report-lacks': 'hoof 1\n\ncase "X"\n  ⟦sharing series⟧\n\nvisit 2026-03-04\n  obel 1\n\nvisit 2026-04-01\n  obel 0\n',
  'visit/call-the-vet': visit('sign ⟦fever recumbent⟧'),
  'visit/score-alone': visit('meier ⟦11⟧'),
  'visit/temperature': visit('temperature ⟦41 C⟧'),
  'visit/vet-seen-date': visit('⟦vet seen 2062-03-04⟧'),
  'visit/insulin': visit('insulin ⟦38 uIU/mL⟧'),
  'frame/missing': visit('⟦film⟧ LF lateral "x.png"\n    p3.extensor @ 1, 2'),
  'frame/no-scale': caseText(filmText({}, { header: '⟦film⟧ LF lateral "x.png"', scale: null })),
  'frame/no-bearing': caseText(`  shoe LF 10 mm\n\n${filmText({}, { header: '⟦film⟧ LF lateral "x.png"' })}`),
  'shoe/disagrees': caseText(`  shoe LF 10 mm\n\n${filmText({}, { ground: 'ground 0, 1200 .. 2000, 1200', more: ['bearing ⟦0, 1000 .. 2000, 1000⟧'] })}`),
  'shoe/not-written': caseText(filmText({}, { header: '⟦film⟧ LF lateral "x.png"', ground: 'ground 0, 1100 .. 2000, 1100', more: ['bearing 0, 1000 .. 2000, 1000'] })),
  'frame/no-landmark': visit('⟦film⟧ LF lateral "x.png"'),
  'scale/foot-size': caseText(filmText({}, { scale: '⟦scale 0.5 mm/px⟧' })),
  'scale/short-marker': caseText(filmText({}, { scale: '⟦scale 20 mm = 100, 100 .. 300, 100⟧' })),
  'scale/bone-length': boneCase([{}, {}, { scale: '⟦scale 0.108 mm/px⟧' }]),
  'scale/other-foot': boneCase([{}, { foot: 'RF', scale: '⟦scale bone⟧' }]),
  'course/tip-shorter': boneCase([{}, {}, { places: { 'p3.tip': [-8, 16.7] } }]).replace(/(p3\.tip @ 1920\.00, 1833\.00)/, '⟦$1⟧'),
  'picture/twice': boneCase([{ picture: 'a.png' }, { picture: 'a.png' }]).replace(/"a\.png"(?![^]*"a\.png")/, '⟦"a.png"⟧'),
  'picture/date': caseText(filmText({}, { header: '⟦film⟧ LF lateral "x.png"', more: ['taken 2026-03-05'] })),
  'picture/before-birth': boneCase([{}], 'foaled 2024-06-01').replace('film', '⟦film⟧'),
  'landmark/far-off': caseText(filmText().replace('p3.extensor @ 1630, 440', '⟦p3.extensor @ 163, 440⟧')),
  'landmark/order': caseText(filmText({ 'wall.upper': [17, 17], 'wall.lower': [-11, 52] }).replace('wall.upper @ 2170, 830', '⟦wall.upper @ 2170, 830⟧')),
  'landmark/proportion': caseText(filmText({ 'pastern.centre': [-68, 70] }).replace('pastern.centre @ 1320, 300', '⟦pastern.centre @ 1320, 300⟧')),
  'landmark/joints': caseText(filmText({ 'pastern.centre': [-100, 72] }).replace('pastern.centre @ 1000, 280', '⟦pastern.centre @ 1000, 280⟧')),
  'landmark/oblique': caseText(filmText({ 'p3.wing.other': [-80, 33] }).replace('p3.wing.other @ 1200, 670', '⟦p3.wing.other @ 1200, 670⟧')),
  'landmark/rough': caseText(filmText({ 'sole.tip': [0, 10] }).replace('sole.tip @ 2000, 900', '⟦sole.tip @ 2000, 900 +- 50⟧')),
  'landmark/followed': caseText(filmText().replace('p3.extensor @ 1630, 440', 'p3.extensor @ 1630, 440 +- 6 ⟦followed⟧')),
  'landmark/off-ground': caseText(filmText({ 'heel.ground': [-110, 5] }).replace('heel.ground @ 900, 950', '⟦heel.ground @ 900, 950⟧')),
  'measure/unknown': visit('tape LF\n    ⟦toe-lenght⟧ 92 mm'),
  'measure/unit': visit('tape LF\n    toe-length ⟦9 deg⟧'),
  'measure/not-by-hand': visit('tape LF\n    ⟦palmar-angle⟧ 5 deg'),
  'tape/disagrees': caseText(`${filmText()}\n\n  tape LF\n    ⟦toe-length 95 mm⟧`),
  'tape/limit': 'hoof 1\nlimits\n  heel-height >= 30 mm\n\nvisit 2026-03-04\n  tape LF\n    ⟦heel-height 25 mm⟧\n',
  'tape/thin-sole': visit('tape LF\n    ⟦sole-ultrasound 4 mm⟧'),
  'trim/by-hand': visit('tape LF\n    heel-surplus 2 mm\n  plan LF\n    heel down ⟦8 mm⟧'),
  'film/other-foot': visit('obel 2\n  ⟦film⟧ LF lateral "x.png"'),
  'limits/absent': caseText(filmText({}, { header: '⟦film⟧ LF lateral "x.png"' }), { limits: '\nlimits\n  grown-out >= 9 mm\n' }),
  'limits/loosened': 'hoof 1\nlimits\n  ⟦sole-depth.tip >= 8 mm⟧\n',
  'expect/differs': caseText(filmText({}, { more: ['⟦expect palmar-angle 9 deg +- 1 deg⟧'] })),
  'expect/absent': caseText(filmText({ 'wall.turn': undefined }, { more: ['⟦expect grown-out 9 mm⟧'] })),
  'range/palmar-angle': caseText(filmText({ 'p3.wing': [-80, 40] }).replace('p3.tip @ 2000, 840', '⟦p3.tip @ 2000, 840⟧')),
  'range/capsular-rotation': caseText(filmText({ 'p3.dorsal.upper': [-24, 54] }).replace('p3.dorsal.lower @ 1930, 760', '⟦p3.dorsal.lower @ 1930, 760⟧')),
  'range/low-in-capsule': caseText(filmText({ 'wall.top': [-18, 66] }).replace('wall.top @ 1820, 340', '⟦wall.top @ 1820, 340⟧')),
  'range/very-low-in-capsule': caseText(filmText({ 'wall.top': [-18, 76] }).replace('wall.top @ 1820, 240', '⟦wall.top @ 1820, 240⟧')),
  'range/wall-to-bone': caseText(filmText({ 'wall.upper': [-6, 56], 'wall.lower': [22, 21] }).replace('p3.dorsal.upper @ 1720, 500', '⟦p3.dorsal.upper @ 1720, 500⟧')),
  'range/sole-depth.tip': caseText(filmText({ 'sole.tip': [0, 10] }).replace('p3.tip @ 2000, 840', '⟦p3.tip @ 2000, 840⟧')),
  'alignment/outside-only': caseText(filmText({ 'p3.dorsal.upper': [-24.5, 54.3], 'sole.heel': [-104, 12] }, { header: '⟦film⟧ LF lateral "x.png"' })),
  'range/coronet-angle': caseText(filmText({ 'coronet.heel': [-131, 50] }).replace('coronet.dorsal @ 1750, 320', '⟦coronet.dorsal @ 1750, 320⟧')),
  'range/too-young': boneCase([{}], 'foaled 2023-04-01').replace('film', '⟦film⟧'),
  'range/agreed': caseText(filmText().replace('coronet.heel @ 690, 760', '⟦coronet.heel @ 690, 760⟧'), { limits: '\nlimits\n  heel-height <= 20 mm\n' }),
  'trim/below-sole-plane': plan('heel down ⟦6 mm⟧'),
  'trim/live-sole': plan('toe down ⟦4 mm⟧'),
  'trim/palmar-angle': plan('heel down ⟦9 mm⟧', { 'sole.heel': [-104, 12], 'sole.wing': [-80, 10] }),
  'trim/sole-depth': plan('toe down ⟦6 mm⟧'),
  'trim/heel-per-visit': plan('heel down ⟦11 mm⟧', { 'sole.heel': [-104, 20] }),
  'trim/turn-per-visit': plan('heel down ⟦13 mm⟧', { 'sole.heel': [-104, 20] }),
  'trim/wall-left': plan('toe back ⟦8 mm⟧'),
  'trim/toe-shortened': plan('toe down ⟦1 mm⟧', { 'p3.dorsal.upper': [-24, 54] }),
  'trim/film-age': caseText(`${filmText({}, { more: ['taken 2026-01-05'] })}\n\n  ⟦plan⟧ LF\n    heel down 1 mm`),
  'trim/no-vet': visit('obel 3\n  ⟦plan⟧ LF\n    heel down 1 mm'),
  'trim/outcome': `${caseText(`${filmText()}\n\n  ⟦trim⟧ LF\n    heel down 1 mm`)}\nvisit 2026-04-01\n${filmText()}\n`,
  'trim/scale-in-doubt': boneCase([{}, {}, { scale: 'scale 0.108 mm/px' }]).trimEnd() + '\n\n  ⟦plan⟧ LF\n    heel down 1 mm\n',
  'visit/interval': caseText(`${filmText({ 'sole.tip': [0, 12] })}\n\n  next ⟦8 weeks⟧`).replace('next ⟦8 weeks⟧', '⟦next 8 weeks⟧'),
  'course/sinking': `${caseText(filmText())}
visit 2026-04-01
${filmText({ 'p3.extensor': [-37, 51] }, { header: '⟦film⟧ LF lateral "y.png"' })}
`,
  'course/cannot-tell': `${caseText(filmText())}
visit 2026-04-01
${filmText({ 'p3.extensor': undefined }, { header: '⟦film⟧ LF lateral "y.png"' })}
`,
  'course/stands-flatter': `${caseText(filmText())}
visit 2026-04-01
${filmText(stoodFlatter(9), { header: '⟦film⟧ LF lateral "y.png"' })}
`,
  'course/rotating': `${caseText(filmText())}\nvisit 2026-04-01\n${filmText({ 'p3.dorsal.upper': [-23, 55] }, { header: '⟦film⟧ LF lateral "y.png"' })}\n`,
  'trim/unmeasured': caseText(`${filmText()}\n\n  trim LF\n    work "edges"\n\n  ⟦plan⟧ LF\n    heel down 1 mm`),
  'trim/no-film': visit('⟦plan⟧ LF\n    heel down 4 mm'),
  'trim/not-predicted': caseText(`${filmText({}, { scale: null })}\n\n  ⟦plan⟧ LF\n    heel down 4 mm`),
  'trim/heel-since-film': caseText(`  shoe LF 10 mm\n\n${filmText({ 'sole.heel': [-104, 14] })}\n\n  trim LF\n    heel down ⟦20 mm⟧`),
  'trim/agreed': `${caseText(`${filmText()}\n\n  plan LF\n    heel down ⟦2 mm⟧`).replace('\nvisit', '\nlimits\n  heel-height >= 23 mm\n\nvisit')}`,
  'trim/both-sides': caseText(`${filmText()}\n\n  plan LF\n    inside down ⟦2 mm⟧\n    outside down 3 mm`),
  'trim/sides-not-predicted': caseText(`${filmText()}\n\n  plan LF\n    inside down ⟦2 mm⟧`),
  'accept/unknown-code': visit('accept ⟦range/palmar-angel⟧ because "x"'),
  'accept/no-reason': visit('accept range/palmar-angle because ⟦""⟧'),
  'accept/never': visit('accept ⟦trim/live-sole⟧ because "x"'),
  'accept/nothing': visit('⟦accept range/palmar-angle because "x"⟧'),
};

/** What is told of a film of the left fore whose picture says this of itself, and of nothing else. */
function ofFile(stored: StoredScale) {
  const { findings } = inspect(boneCase([{ scale: 'scale dicom' }]), undefined, undefined, () => stored);
  return findings.filter(({ code }) => code === 'scale/from-file' || code === 'picture/side');
}

/** Codes that no text alone can raise: of the bytes of a file, and of several files together. */
export const beyondOneText: Readonly<Record<string, () => readonly { code: string; message: string }[]>> = {
  'file/too-large': () => (['bytes', 'lines'] as const).map((tooMuch) => tooLarge('hoof 1\n', tooMuch)),
  'file/not-utf-8': () => [notUtf8(7, { line: 1, column: 0 }, 0xe4)],
  'scale/from-file': () => ofFile({ mmPerPx: 0.1, words: 'The scale is that of the detector.', overstates: [5, 25] }),
  'picture/side': () => ofFile({ mmPerPx: 0.1, words: 'As calibrated.', side: 'right' }),
  'picture/missing': () =>
    inspect(visit('film LF lateral "x.png"'), undefined, undefined, undefined, () => true).findings.filter(
      ({ code }) => code === 'picture/missing',
    ),
  'case/same-picture': () => {
    const facts = { name: null, code: null, pictures: [{ path: 'a.png', at: { line: 4, from: 18, to: 25 } }] };
    return [...acrossFiles(['a', 'b'].map((file) => ({ file, called: file, facts }))).values()].flat();
  },
  'case/same-code': () => {
    const at = { line: 2, from: 7, to: 11 };
    const facts = { name: null, code: { value: 'EX09', at }, pictures: [] };
    return [...acrossFiles(['a', 'b'].map((file) => ({ file, called: file, facts }))).values()].flat();
  },
};
