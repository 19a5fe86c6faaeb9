// The bundle that writes PDF holds its type as bytes. fontkit also reads a form of files that is packed with brotli, whose
// dictionary is as large as half of fontkit; the files that ship are of the other form, so it is left out.
import { join } from 'node:path';
import { fontFiles } from '../src/pdf/font-files.ts';

const modules = join(import.meta.dirname, '..', 'node_modules');

export const fontsInside = {
  name: 'fonts-inside',
  setup({ onLoad, onResolve }) {
    const names = [...new Set(Object.values(fontFiles).flat())];
    onLoad({ filter: /[\\/]src[\\/]pdf[\\/]font-bytes\.ts$/ }, () => ({
      contents: [
        ...names.map((name, index) => `import font${index} from ${JSON.stringify(join(modules, name))};`),
        `export const fontBytes = {${names.map((name, index) => `${JSON.stringify(name)}: font${index}`).join(', ')}};`,
      ].join('\n'),
      loader: 'js',
    }));
    onResolve({ filter: /^brotli\/decompress\.js$/ }, () => ({ path: 'brotli', namespace: 'left-out' }));
    onLoad({ filter: /^brotli$/, namespace: 'left-out' }, () => ({
      contents: "export default () => { throw new Error('no type of this form ships'); };",
    }));
  },
};
