import { spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Checks, expectEqual, expectThat, NotRun, type Outcome } from './checks.ts';
import { unpackedPackage } from './debian-package.ts';
import { install, mayInstall, onPath } from './debian.ts';
import { describe } from './failure.ts';
import { SENDER, startArchive } from './orthanc.ts';
import { addReportCases, filed, filedFilm } from './report-cases.ts';
import { copyOfExamples, scratchFolder, type UnderTest } from './under-test.ts';

/** The programs of others that read a report, and the Debian package of each. */
const programs = {
  dciodvfy: { at: ['dciodvfy'], package: 'dicom3tools' },
  dsrdump: { at: ['dsrdump'], package: 'dcmtk' },
  storescu: { at: ['storescu'], package: 'dcmtk' },
  pydicom: { at: ['python3'], package: 'python3-pydicom' },
  orthanc: { at: ['Orthanc', '../sbin/Orthanc'], package: 'orthanc' },
} as const;
type Program = keyof typeof programs;

const DAY = '2026-05-28';

interface Code {
  value: string;
  scheme: string;
  meaning: string;
}

interface ReadItem {
  type: string;
  name?: Code;
  value?: number | null;
  unit?: string;
  qualifier?: Code;
  code?: Code;
  text?: string;
  uid?: string;
  items: ReadItem[];
}

interface ReadReport {
  sopClass: string;
  instance: string;
  study: string;
  patient: { name: string; id: string };
  root: ReadItem;
  codes: (Code & { known: string[] })[];
  content: string;
}

type Measures = Record<string, { value: number; sd: number; unit: string }>;

interface Written {
  readonly path: string;
  /** What `ungula measure --format json` says of the same film. */
  readonly measures: Measures;
}

/** Structured reports, read and kept by programs that nobody here wrote. */
export async function runStructuredReport({ cli, examples }: UnderTest): Promise<Outcome> {
  const checks = new Checks();
  const found = await findPrograms();
  const need = (name: Program): string => {
    const { at, why } = found[name];
    if (at === null) throw new NotRun(why);
    return at;
  };
  const folder = scratchFolder('report');
  const workspace = copyOfExamples(examples, folder);
  const cases = addReportCases(workspace);
  const written: Written[] = [];

  await checks.check('reports are written, twice the same', 60, async () => {
    for (const [name, file] of Object.entries({ juniper: join(workspace, 'juniper.hoof'), ...cases }))
      written.push(...(await reportsOf(cli, file, join(folder, name))));
    expectThat(written.length > 6, `only ${written.length} reports`);
    const again = await reportsOf(cli, cases.filed, join(folder, 'again'));
    const before = written.filter(({ path }) => path.startsWith(join(folder, 'filed')));
    expectEqual(again.map(bytesOf), before.map(bytesOf), 'bytes of a report that is written again');
  });
  if (written.length === 0) return checks.outcome;
  const paths = written.map(({ path }) => path);
  // Begun now, as it takes as long as all the others together.
  const templates = checkedByTemplates(paths.find((path) => path.includes('filed')) ?? '');

  await checks.check('dciodvfy finds no error, and finds one where there is one', 60, async () => {
    const dciodvfy = need('dciodvfy');
    for (const path of paths) {
      const { output, status } = await ran(dciodvfy, [path]);
      const told = output.split('\n').filter((line) => line.trim() !== '' && !isExpected(line));
      expectEqual(told, [], `what dciodvfy says of ${path}`);
      expectEqual(status, 0, 'its status');
    }
    const broken = join(folder, 'broken.dcm');
    writeFileSync(broken, without(readFileSync(paths[0] ?? ''), 'COMPLETE', 'NONSENSE'));
    const { output } = await ran(dciodvfy, [broken]);
    expectThat(/^Error/m.test(output), 'a flag of nonsense is not noticed');
  });

  await checks.check('dsrdump reads the numbers that measure prints', 60, async () => {
    const dsrdump = need('dsrdump');
    for (const { path, measures } of written) {
      const { output, status } = await ran(dsrdump, ['+Pc', '+Pl', path]);
      expectEqual(status, 0, `status of dsrdump of ${path}`);
      // Decimal strings of 16 characters.
      const read = [...output.matchAll(/^ *<contains NUM:\(([\w.-]+),99UNGULA,"[^"]*"\)="([^"]+)"/gm)];
      expectSame(new Map(read.map(([, name = '', value]) => [name, Number(value)])), measures, 1e-10);
    }
  });

  let read: ReadReport[] = [];
  await checks.check('pydicom reads the numbers, deviations and units that measure prints', 60, async () => {
    read = await readBy(need('pydicom'), paths);
    for (const [index, { measures }] of written.entries()) {
      const numbers = measuresIn(read[index]);
      expectSame(new Map([...numbers].map(([name, item]) => [name, item.value ?? NaN])), measures, 0);
      for (const [name, { sd, unit }] of Object.entries(measures)) {
        const item = numbers.get(name);
        expectEqual(item?.unit, unit, `unit of ${name}`);
        expectEqual(item?.items.find(named('371884006'))?.value, sd, `deviation of ${name}`);
      }
    }
  });

  await checks.check('each code of the standard is one of its context groups, with that meaning', 5, async () => {
    need('pydicom');
    const used = read.flatMap(({ codes }) => codes);
    const standard = used.filter(({ scheme }) => ['DCM', 'SCT', 'UCUM', 'UMLS'].includes(scheme));
    expectThat(standard.length > 100, `only ${standard.length} codes of the standard`);
    // Template items without a context group, which pydicom's list of concepts has all the same.
    const odd = standard.filter(({ known, meaning }) => !known.includes(meaning));
    expectEqual(
      [...new Set(odd.map(({ scheme, value, meaning }) => `${scheme} ${value} ${meaning}`))],
      [],
      'odd codes',
    );
    const others = new Set(used.filter((one) => !standard.includes(one)).map(({ scheme }) => scheme));
    expectEqual([...others].sort(), ['99UNGULA', 'RFC5646'], 'other schemes');
  });

  await checks.check('where the scale is from, the image and what is not measured are said', 5, async () => {
    need('pydicom');
    const at = (name: string): ReadReport | undefined => read[paths.findIndex((path) => path.includes(`/${name}/`))];
    const own = (name: string, what: string): string | undefined =>
      deep(at(name)?.root).find(named(what, '99UNGULA'))?.code?.value;
    const scale = (name: string): string | undefined => own(name, 'scale-from');
    expectEqual(
      ['juniper', 'filed', 'detector', 'unscaled'].map(scale),
      ['scale-marker', 'scale-file', 'scale-detector', 'scale-none'],
      'where the scale is from',
    );
    expectEqual(
      ['filed', 'followed'].map((name) => own(name, 'placing')),
      ['by-a-person', 'some-followed'],
      'how the landmarks were placed',
    );
    const images = (name: string): string[] => [
      ...new Set(deep(at(name)?.root).flatMap(({ type, uid }) => (type === 'IMAGE' ? [uid ?? ''] : []))),
    ];
    expectEqual([images('juniper'), images('filed')], [[], [filed.instance]], 'images');
    const empty = [...measuresIn(at('unscaled')).values()].filter(({ value }) => value === null);
    expectThat(empty.length > 3, `only ${empty.length} lengths are said not to be measured`);
    expectEqual([...new Set(empty.map(({ qualifier }) => qualifier?.value))], ['114007'], 'why they are not');
    expectEqual(at('filed')?.patient, { name: '^صفصاف', id: 'UNGULA-EX01' }, 'the patient');
  });

  await checks.check('the templates of TID 1500 hold, by PixelMed’s checker', 300, async () => {
    const told = await templates;
    if ('why' in told) throw new NotRun(told.why);
    expectThat(told.output.includes('TID_1500'), `no template was found: ${told.output.slice(0, 500)}`);
    expectThat(told.output.includes('validation complete'), 'the checker gave up');
    const errors = told.output.split('\n').filter((line) => line.startsWith('Error'));
    // That it tells these shows that it goes down to the last number.
    expectThat(errors.some(isOfAnyName), 'it no longer tells of rows that take any name: see isOfAnyName');
    expectEqual(
      errors.filter((line) => !isOfAnyName(line)),
      [],
      'errors',
    );
  });

  await checks.check('Orthanc keeps them and gives them back', 90, async () => {
    const [orthanc, storescu, pydicom] = [need('orthanc'), need('storescu'), need('pydicom')];
    const named = join(folder, 'named.dcm');
    await ungula(cli, ['report', cases.filed, '--structured', '--names', '--film', 'LF', '--on', DAY, '-o', named]);
    const archive = await startArchive(orthanc, join(folder, 'archive'));
    try {
      const [first = '', ...others] = paths;
      const sent = await ran(storescu, [
        '-aet',
        SENDER,
        '-aec',
        'ARCHIVE',
        '127.0.0.1',
        String(archive.dicomPort),
        first,
      ]);
      expectEqual([sent.status, sent.output], [0, ''], 'storing by DICOM’s own protocol');
      const instances: string[] = [];
      for (const path of [...others, filedFilm(workspace), named]) instances.push(await stored(archive.url, path));
      for (const [index, path] of others.entries()) {
        const back = await fetch(`${archive.url}/instances/${instances[index]}/file`);
        const same = Buffer.from(await back.arrayBuffer()).equals(readFileSync(path));
        expectThat(same, `${path} comes back with other bytes`);
      }
      const all = (await (await fetch(`${archive.url}/instances`)).json()) as string[];
      const [byProtocol = ''] = all.filter((id) => !instances.includes(id));
      const back = join(folder, 'back.dcm');
      const answer = await fetch(`${archive.url}/instances/${byProtocol}/file`);
      writeFileSync(back, Buffer.from(await answer.arrayBuffer()));
      const [before, after] = await readBy(pydicom, [first, back]);
      expectEqual(after?.content, before?.content, 'what comes back of a report that was sent');
      // With names the report stands in the film's own study of the film's own patient.
      const studies = await studiesOf(archive.url, { PatientID: filed.patient });
      expectEqual(studies.length, 1, 'studies of the patient of the film');
      expectEqual(studies[0]?.series.length, 2, 'series of that study: the film and its report');
    } finally {
      archive.end();
    }
  });
  return checks.outcome;
}

async function findPrograms(): Promise<Record<Program, { at: string | null; why: string }>> {
  const names = Object.keys(programs) as Program[];
  const look = async (name: Program): Promise<string | null> => {
    const at = onPath(programs[name].at);
    if (name !== 'pydicom' || at === null) return at;
    return (await ran(at, ['-c', 'import pydicom.sr'])).status === 0 ? at : null;
  };
  const first = await Promise.all(names.map(look));
  const lacking = [...new Set(names.filter((_, index) => first[index] === null).map((name) => programs[name].package))];
  let why = 'it is not here, and can be installed only as root on Debian';
  if (lacking.length > 0 && mayInstall())
    try {
      await install(lacking);
      why = 'Debian’s package brought no such program';
    } catch (error) {
      why = `it cannot be installed: ${describe(error).split('\n')[0]}`;
    }
  const now = await Promise.all(names.map(look));
  return Object.fromEntries(
    names.map((name, index) => [
      name,
      { at: now[index] ?? null, why: `${name} (Debian’s ${programs[name].package}): ${why}` },
    ]),
  ) as Record<Program, { at: string | null; why: string }>;
}

/** What dciodvfy says of any report with codes of its own, and of one without the hours and numbers of a study. */
function isExpected(line: string): boolean {
  return (
    line === 'ComprehensiveSR' ||
    line.startsWith('Warning - Unrecognized defined term <99UNGULA>') ||
    /^Warning - Missing attribute or value that would be needed to build DICOMDIR - Study (?:Time|ID)$/.test(line)
  );
}

/**
 * Rows 9 and 10 of TID 300 take a number of any name, so the checker holds every number below a measurement to them, those of
 * TID 310 and TID 312 too, which stand to it as properties.
 */
function isOfAnyName(line: string): boolean {
  return (
    /^Error: Template 300 Measurement\/\[Row 1\] NUM \*\/\[Row (?:9|10)\] NUM \*: /.test(line) &&
    /NUM \((?:371884006|385524004|371933006),SCT,[^)]*\): Incorrect relationship - expected INFERRED FROM - found HAS PROPERTIES/.test(
      line,
    )
  );
}

async function checkedByTemplates(path: string): Promise<{ output: string } | { why: string }> {
  const java = onPath(['java']);
  if (java === null) return { why: 'no Java here to run it with' };
  const library = unpackedPackage('libpixelmed-java');
  if (library.folder === null) return { why: library.why };
  const jar = join(library.folder, 'usr', 'share', 'java', 'pixelmed.jar');
  if (!existsSync(jar)) return { why: `${jar} is not there` };
  // Its tables are larger than newer Javas allow without being asked.
  const open = ['xpathExprGrpLimit', 'xpathExprOpLimit', 'xpathTotalOpLimit'].map((limit) => `-Djdk.xml.${limit}=0`);
  // It runs for half a minute, most of it in code that runs once: compiling that lightly takes a third less.
  const light = ['-XX:TieredStopAtLevel=1', '-XX:+UseSerialGC'];
  return ran(java, [...light, ...open, '-cp', jar, 'com.pixelmed.validate.DicomSRValidator', path]);
}

async function ungula(cli: string, args: readonly string[]): Promise<string> {
  const { status, output, out } = await ran(process.execPath, [cli, ...args]);
  if (status !== 0) throw new Error(`ungula ${args.join(' ')} ended with ${status}: ${output}`);
  return out;
}

async function reportsOf(cli: string, file: string, into: string): Promise<Written[]> {
  const paths = (await ungula(cli, ['report', file, '--structured', '--on', DAY, '-o', into])).trim().split('\n');
  const said = JSON.parse(await ungula(cli, ['measure', file, '--format', 'json'])) as {
    cases: { visits: { films: { kind?: string; readings: { measures: Measures }[] }[] }[] }[];
  };
  const films = said.cases.flatMap(({ visits }) => visits.flatMap((visit) => visit.films));
  const read = films.filter(
    ({ kind, readings }) => kind !== 'photo' && Object.keys(readings[0]?.measures ?? {}).length > 0,
  );
  expectEqual(paths.length, read.length, `reports of ${file}`);
  return paths.map((path, index) => ({ path, measures: read[index]?.readings[0]?.measures ?? {} }));
}

const bytesOf = ({ path }: Written): string => readFileSync(path).toString('base64');

function without(bytes: Buffer, text: string, instead: string): Buffer {
  const at = bytes.indexOf(text, 0, 'latin1');
  if (at < 0) throw new Error(`the report has no «${text}»`);
  const changed = Buffer.from(bytes);
  changed.write(instead, at, 'latin1');
  return changed;
}

function expectSame(read: ReadonlyMap<string, number>, measures: Measures, within: number): void {
  const values = new Map([...read].filter(([, value]) => !Number.isNaN(value)));
  expectEqual([...values.keys()].sort(), Object.keys(measures).sort(), 'measures');
  for (const [name, { value }] of Object.entries(measures)) {
    const off = Math.abs((values.get(name) ?? NaN) - value);
    expectThat(off <= within * Math.abs(value), `${name}: is ${values.get(name)}, should be ${value}`);
  }
}

async function readBy(python: string, paths: readonly string[]): Promise<ReadReport[]> {
  const { status, out, output } = await ran(python, [join(import.meta.dirname, 'read-report.py'), ...paths]);
  if (status !== 0) throw new Error(`pydicom: ${output}`);
  return JSON.parse(out) as ReadReport[];
}

const deep = (item: ReadItem | undefined): ReadItem[] => (item ? [item, ...item.items.flatMap(deep)] : []);

const named =
  (value: string, scheme?: string) =>
  ({ name }: ReadItem): boolean =>
    name?.value === value && (scheme === undefined || name.scheme === scheme);

function measuresIn(report: ReadReport | undefined): Map<string, ReadItem> {
  const group = deep(report?.root).find(named('125007', 'DCM'));
  const numbers = group?.items.filter(({ type, name }) => type === 'NUM' && name?.scheme === '99UNGULA') ?? [];
  return new Map(numbers.map((item) => [item.name?.value ?? '', item]));
}

async function stored(url: string, path: string): Promise<string> {
  const answer = await fetch(`${url}/instances`, { method: 'POST', body: readFileSync(path) });
  const { ID, Status } = (await answer.json()) as { ID: string; Status: string };
  expectEqual(Status, 'Success', `storing ${path}`);
  return ID;
}

async function studiesOf(url: string, query: Record<string, string>): Promise<{ series: string[] }[]> {
  const body = JSON.stringify({ Level: 'Study', Expand: true, Query: query });
  const studies = (await (await fetch(`${url}/tools/find`, { method: 'POST', body })).json()) as { Series: string[] }[];
  return studies.map(({ Series }) => ({ series: Series }));
}

function ran(
  program: string,
  args: readonly string[],
): Promise<{ status: number | null; out: string; output: string }> {
  return new Promise((resolve) => {
    const child = spawn(program, args, { stdio: ['ignore', 'pipe', 'pipe'] });
    let [out, output] = ['', ''];
    child.stdout.on('data', (data: Buffer) => {
      out += data.toString();
      output += data.toString();
    });
    child.stderr.on('data', (data: Buffer) => (output += data.toString()));
    child.once('error', (error) => resolve({ status: null, out, output: error.message }));
    child.once('close', (status) => resolve({ status, out, output }));
  });
}
