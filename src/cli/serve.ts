import { t } from '../../shared/language/words.ts';
import { Unusable, type Command } from './command.ts';

export const serve: Command = {
  name: 'serve',
  usage: 'ungula serve --stdio',
  doc: 'The language server, for any editor that speaks its protocol; ends with the connection.',
  takesFiles: false,
  // Some clients tell their process, so that a server whose client has crashed can end; the server reads it itself.
  options: { stdio: { type: 'boolean' }, clientProcessId: { type: 'string' } },
  async run(files, options) {
    if (files.length > 0) throw new Unusable(t('serve takes no file, the editor opens them: {0}', serve.usage));
    if (options['stdio'] !== true)
      throw new Unusable(t('serve speaks over standard input and output only: {0}', serve.usage));
    // The server as it stands beside this program, so that there is one server and not two. It reads `--stdio` from the
    // arguments, listens, and ends the process with the status that the protocol asks for.
    await import(new URL('./server.js', import.meta.url).href);
    return 0;
  },
};
