import { createRequire } from 'node:module';
import type * as OpenCv from '@techstark/opencv-js';

/** OpenCV 4.12, compiled to WebAssembly: image arithmetic that nobody here wrote. */
export type Cv = typeof OpenCv;

/** Wrapped, as the module has a `then` of its own that an `await` would follow for ever. */
export async function openCv(): Promise<{ readonly cv: Cv }> {
  const made = createRequire(import.meta.url)('@techstark/opencv-js') as Cv | Promise<Cv>;
  // It is made as a promise or as a module that is not ready yet, by version.
  const cv = made instanceof Promise ? await made : made;
  if (!('Mat' in cv))
    await new Promise<void>((done) => {
      (cv as Cv & { onRuntimeInitialized: () => void }).onRuntimeInitialized = done;
    });
  return { cv };
}

export interface Numbers {
  readonly width: number;
  readonly height: number;
  readonly greys: Float32Array;
}

export function matrixOf(cv: Cv, { width, height, greys }: Numbers): OpenCv.Mat {
  return cv.matFromArray(height, width, cv.CV_32F, [...greys]);
}
