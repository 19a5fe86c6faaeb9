import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of this program. `import.meta.dirname` is not there in the Node of the oldest editor that runs it (20.9). */
export const here = dirname(fileURLToPath(import.meta.url));
