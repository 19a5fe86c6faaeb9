// What four libraries carry and no bundle needs. A library that no longer has the shape that is known here stops the build.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

export const leanLibraries = {
  name: 'lean-libraries',
  setup(build) {
    dicomParserByModules(build);
    grammarCheckedBefore(build);
    randomWithoutEffects(build);
    dcmjsThatWrites(build);
  },
};

/**
 * dicom-parser comes as one file, of which a bundler can leave out nothing. Its source map holds the modules that the file was
 * made of: those are bundled, and of them what `shared/picture` uses.
 */
function dicomParserByModules({ onResolve, onLoad }) {
  const folder = join(import.meta.dirname, '..', 'node_modules', 'dicom-parser');
  const modules = join(folder, 'dist', 'modules');
  let texts;
  const text = (path) => {
    if (!texts) {
      const { sources, sourcesContent } = JSON.parse(readFileSync(join(folder, 'dist', 'dicomParser.js.map'), 'utf8'));
      texts = new Map(
        sources.map((source, i) => [join(modules, source.replace('webpack://dicomParser/', '')), sourcesContent[i]]),
      );
    }
    return known(texts.get(path), path);
  };
  onResolve({ filter: /^dicom-parser$/ }, () => ({ path: join(modules, 'index.js'), sideEffects: false }));
  onResolve({ filter: /^\.{1,2}\// }, ({ path, resolveDir }) =>
    resolveDir.startsWith(modules) ? { path: join(resolveDir, path), sideEffects: false } : null,
  );
  // Asked for where a file is inflated, which is done elsewhere.
  onResolve({ filter: /^zlib$/ }, ({ path, resolveDir }) =>
    resolveDir.startsWith(modules) ? { path, external: true } : null,
  );
  onLoad({ filter: /[\\/]dicom-parser[\\/]dist[\\/]modules[\\/]/ }, ({ path }) => ({
    contents: text(path),
    resolveDir: join(path, '..'),
    loader: 'js',
  }));
  // Under Node the library has a default export only; as modules it has names, and the object of all names would keep them all.
  onLoad({ filter: /[\\/]shared[\\/]picture[\\/]dicom-(?:file|elements)\.ts$/ }, ({ path }) => ({
    contents: replaced(
      path,
      /^import dicomParser, \{ ([^}]+) \} from 'dicom-parser';$/gm,
      "import * as dicomParser from 'dicom-parser';\nimport { $1 } from 'dicom-parser';",
      1,
    ),
    loader: 'ts',
  }));
}

/**
 * dcmjs comes as one file too. Of the modules in its source map those are bundled that write a data set: nothing that reads one, no
 * dictionary of all tags, as each element comes with its tag and its kind.
 */
function dcmjsThatWrites({ onResolve, onLoad, resolve }) {
  const folder = join(import.meta.dirname, '..', 'node_modules', 'dcmjs');
  const modules = join(folder, 'build', 'modules');
  let texts;
  const text = (path) => {
    if (!texts) {
      const { sources, sourcesContent } = JSON.parse(readFileSync(join(folder, 'build', 'dcmjs.es.js.map'), 'utf8'));
      texts = new Map(sources.map((source, i) => [join(modules, source.replace('../src/', '')), sourcesContent[i]]));
    }
    return known(texts.get(path), path);
  };
  // As the library's own index wires its classes.
  const entry = `
    import { DicomDict } from './DicomDict.js';
    import { DicomMessage } from './DicomMessage.js';
    import { Tag } from './Tag.js';
    import { ValueRepresentation } from './ValueRepresentation.js';
    DicomDict.setDicomMessageClass(DicomMessage);
    ValueRepresentation.setDicomMessageClass(DicomMessage);
    ValueRepresentation.setTagClass(Tag);
    Tag.setDicomMessageClass(DicomMessage);
    export const data = { DicomDict };`;
  const forReading = new Map([
    [join(modules, 'DicomMetaDictionary.js'), 'export const DicomMetaDictionary = { dictionary: {} };'],
    [join(modules, 'pako.js'), 'export default {};'],
  ]);
  // In place of the one file, so that whoever asks whose work a bundle holds finds a file that is there.
  const whole = join(folder, 'build', 'dcmjs.es.js');
  onResolve({ filter: /^dcmjs$/ }, () => ({ path: whole }));
  onResolve({ filter: /^\.{1,2}\// }, ({ path, resolveDir }) =>
    resolveDir.startsWith(modules) ? { path: join(resolveDir, path.replace(/(?:\.js)?$/, '.js')) } : null,
  );
  onResolve({ filter: /^pako$/ }, ({ resolveDir }) =>
    resolveDir.startsWith(modules) ? { path: join(modules, 'pako.js') } : null,
  );
  onResolve({ filter: /^loglevel$/ }, ({ path, resolveDir, kind }) =>
    resolveDir.startsWith(modules) ? resolve(path, { resolveDir: folder, kind }) : null,
  );
  onLoad({ filter: /[\\/]dcmjs[\\/]build[\\/]/ }, ({ path }) => ({
    contents: path === whole ? entry : (forReading.get(path) ?? text(path)),
    resolveDir: path === whole ? modules : join(path, '..'),
    loader: 'js',
  }));
}

/** chevrotain looks whether the grammar is sound each time it starts; the tests have done so, and it is the same grammar. */
function grammarCheckedBefore({ onLoad }) {
  const checks = /this\.(?:config\.)?skipValidations === false/g;
  onLoad({ filter: /[\\/]chevrotain[\\/]lib[\\/]src[\\/]parse[\\/]parser[\\/]parser\.js$/ }, ({ path }) => ({
    contents: replaced(path, checks, 'false', 1),
  }));
  onLoad({ filter: /[\\/]chevrotain[\\/]lib[\\/]src[\\/]scan[\\/]lexer_public\.js$/ }, ({ path }) => ({
    contents: replaced(path, checks, 'false', 2),
  }));
  onLoad({ filter: /[\\/]chevrotain[\\/]lib[\\/]src[\\/]parse[\\/]grammar[\\/]llk_lookahead\.js$/ }, ({ path }) => ({
    contents: replaced(path, /^ {4}validate\w*\([^)]*\) \{\n[\s\S]*?^ {4}\}\n/gm, '', 5),
  }));
  onLoad(
    { filter: /[\\/]chevrotain[\\/]lib[\\/]src[\\/]parse[\\/]parser[\\/]traits[\\/]recognizer_api\.js$/ },
    ({ path }) => ({
      contents: replaced(
        path,
        /defaultGrammarValidatorErrorProvider\.buildDuplicateRuleNameError\(\{[^}]*\}\)|validateRuleIsOverridden\(name,[^)]*\)/g,
        '[]',
        2,
      ),
    }),
  );
  // The grammar takes every text, so there is no error that a parser would have to recover from (`recoveryEnabled: false`).
  onLoad(
    { filter: /[\\/]chevrotain[\\/]lib[\\/]src[\\/]parse[\\/]parser[\\/]traits[\\/]recoverable\.js$/ },
    ({ path }) => ({
      contents: replaced(
        path,
        /(?<=^ {8})if \(this\.recoveryEnabled\) \{[^}]*\}|^ {4}tryInRepetitionRecovery\([\s\S]*?(?=^ {4}attemptInRepetitionRecovery\()/gm,
        '',
        2,
      ),
    }),
  );
}

/** d3-random makes all its distributions as it loads; a bundler has to be told that this does nothing else. */
function randomWithoutEffects({ onLoad }) {
  onLoad({ filter: /[\\/]d3-random[\\/]dist[\\/]d3-random\.mjs$/ }, ({ path }) => ({
    contents: replaced(path, /= \(function source/g, '= /* @__PURE__ */ (function source', null),
  }));
}

function replaced(path, what, by, times) {
  const text = readFileSync(path, 'utf8').replaceAll('\r\n', '\n');
  const found = text.match(what)?.length ?? 0;
  known(times === null ? found > 0 : found === times, path);
  return text.replace(what, by);
}

function known(found, path) {
  if (!found) throw new Error(`${path} is not in a shape that scripts/lean-libraries.mjs knows`);
  return found;
}
