import type { Palette } from './ink.css.ts';
import type { LayerName, Scene } from './scene.ts';
import { sceneToSvg } from './svg.ts';

/** A drawing as text that stands alone, with its size, CSS pixels unless it is given in millimetres. */
export interface Drawing {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/** As wide as a page of a letter takes them, CSS pixels. */
export const usualWidth = { plate: 1200, course: 1000 } as const;

/** Ink on paper as everywhere, light strokes on a dark ground, and black on white for a printer that has no colour. */
export const themes = {
  light: {},
  dark: { ink: '#d6d1c7', paper: '#1e1d1b', quiet: '#a8a196', accentA: '#86bfe8', accentB: '#f0a35e' },
  print: { ink: '#000', paper: '#fff', quiet: '#333', accentA: '#444', accentB: '#000' },
} as const satisfies Readonly<Record<string, Partial<Palette>>>;

export interface AloneOptions {
  readonly width: number;
  readonly sizeIn?: 'mm';
  readonly palette?: Partial<Palette>;
  /** What stands in its description beside the scene's own words. */
  readonly says?: readonly string[];
}

export function alone(scene: Scene, { width, sizeIn, palette = {}, says = [] }: AloneOptions): Drawing {
  const height = (width * scene.view.height) / scene.view.width;
  const description = [scene.description, ...says].join(' ');
  const options = { standalone: true, width, height, palette, ...(sizeIn && { sizeIn }) };
  return { svg: sceneToSvg({ ...scene, description }, options), width, height };
}

/** The scene without some of its layers. */
export function without(scene: Scene, hidden: readonly LayerName[]): Scene {
  return { ...scene, layers: scene.layers.filter(({ data }) => !data?.layer || !hidden.includes(data.layer)) };
}
