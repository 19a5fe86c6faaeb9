import { atMost } from '../shared/picture/at-most.ts';
import { largestPicture, mostOpen, type UsePicture } from '../shared/picture/picture-files.ts';
import { usePlainFile } from './plain-file.ts';

const inTurn = atMost(mostOpen);

/** The reader of pictures under Node, by absolute paths: of the command line, of the server, and of the editor on a desktop. */
export const usePicture: UsePicture = (path, roots, use) =>
  inTurn(() => usePlainFile(path, roots, largestPicture, use));
