// The libraries of the language server protocol come as CommonJS, which a bundler cannot take apart: everything in them
// would be carried, used or not. They are compiled from TypeScript, which writes CommonJS in a few fixed shapes; here these
// are turned back into the imports and exports that they were. A file in any other shape stops the build.
import { readFileSync } from 'node:fs';

const packages =
  /[\\/]node_modules[\\/]vscode-(?:jsonrpc|languageclient|languageserver|languageserver-protocol|languageserver-types)[\\/]lib[\\/](?:browser|common|node|esm)[\\/].*\.js$/;

export const asEsModules = {
  name: 'as-es-modules',
  setup({ onLoad }) {
    onLoad({ filter: packages }, ({ path }) => ({
      contents: esModule(readFileSync(path, 'utf8'), path),
      loader: 'js',
    }));
  },
};

/**
 * @param {string} source as the TypeScript compiler writes it
 * @param {string} path for the complaint
 */
export function esModule(source, path) {
  const text = exportsOf(importsOf(namespaces(withoutHelpers(source.replaceAll('\r\n', '\n')))));
  const left = /^.*\b(?:exports\b|require\(|module\.|__\w+\().*$/m.exec(withoutComments(text));
  if (left) throw new Error(`${path} is not in a shape that scripts/as-es-modules.mjs knows: ${left[0].trim()}`);
  return text;
}

/** @param {string} text */
function withoutHelpers(text) {
  return text
    .replace(/^(?:"use strict"|'use strict');\n/m, '')
    .replace(/^var __\w+ = \(this && this\.__\w+\) \|\| [\s\S]*?^\}[()]*;\n/gm, '')
    .replace(/^Object\.defineProperty\(exports, "__esModule", \{ value: true \}\);\n/m, '')
    .replace(/^(?:exports\.\w+ = )+void 0;\n/gm, '');
}

/**
 * A namespace or an enum is a call that fills an object. Marked as a call that does nothing else, it goes where nobody uses it.
 * @param {string} text
 */
function namespaces(text) {
  /** @type {Set<string>} */
  const exported = new Set();
  return text
    .replace(
      /^(export )?var (\w+);\n\(function \(\2\) \{\n([\s\S]*?)^\}\)\(\2 \|\| \((exports\.\2 = )?\2 = \{\}\)\);/gm,
      (_all, now, name, body, later) => {
        if (later) exported.add(name);
        return `${now || later ? 'export ' : ''}var ${name} = /* @__PURE__ */ (function (${name}) {\n${body}return ${name};\n})({});`;
      },
    )
    .replace(/^\}\)\((\w+) \|\| \((?:exports\.\1 = )?\1 = \{\}\)\);/gm, (_all, name) =>
      // More for what is there already: a function, a class, an enum.
      text.includes(`exports.${name} = ${name};`) || exported.has(name) || !text.includes(`exports.${name} = `)
        ? `})(${name});`
        : `})(${name});\nexport { ${name} };`,
    );
}

/** @param {string} text */
function importsOf(text) {
  return (
    text
      .replace(/^const (\w+) = __importDefault\(require\("(\.[^"]*)"\)\);/gm, 'import * as $1 from "$2";')
      .replace(
        /^const (\w+) = __importDefault\(require\("([^"]*)"\)\);/gm,
        'import $1_default from "$2";\nconst $1 = { default: $1_default };',
      )
      .replace(/^const (\w+) = __importStar\(require\("([^"]*)"\)\);/gm, 'import * as $1 from "$2";')
      .replace(/^(?:const|var) (\w+) = require\("(\.[^"]*|vscode[^"]*)"\);/gm, 'import * as $1 from "$2";')
      // What another package gives may be a function.
      .replace(/^const (\w+) = require\("([^"]*)"\);/gm, 'import $1 from "$2";')
      .replace(/^__exportStar\(require\("([^"]*)"\), exports\);/gm, 'export * from "$1";')
  );
}

/** @param {string} text */
function exportsOf(text) {
  /** @type {Map<string, string>} */
  const froms = new Map(
    [...text.matchAll(/^import \* as (\w+) from ("[^"]*");/gm)].map(([, name, from]) => [name ?? '', from ?? '']),
  );
  const given = text
    .replace(
      /^Object\.defineProperty\(exports, "(\w+)", \{ enumerable: true, get: function \(\) \{ return (\w+)\.(\w+); \} \}\);/gm,
      (_all, name, module, from) => `export { ${from} as ${name} } from ${froms.get(module)};`,
    )
    .replace(/^exports\.(\w+) = (\w+);/gm, (_all, name, local) => `export { ${local} as ${name} };`);
  // What is left is a value that has no name of its own.
  const named = new Set([...given.matchAll(/^exports\.(\w+) = /gm)].map(([, name]) => name ?? ''));
  return given
    .replace(/^exports\.(\w+) = /gm, 'export const $1 = ')
    .replace(/\bexports\.(\w+)\b/g, (all, name) => (named.has(name) ? name : all));
}

/** @param {string} text */
function withoutComments(text) {
  return text.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
}
