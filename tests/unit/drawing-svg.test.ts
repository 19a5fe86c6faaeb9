import { describe, expect, it } from 'vitest';
import { INK_CSS, inkCss } from '../../shared/drawing/ink.css.ts';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import { LAYERS } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { EVERY_LABEL, foot, label, nodes, PICTURE, readXml } from './drawing-help.ts';

const NASTY = `"><script>alert(1)</script><g onload='x' & \u0000\u0008\ud800 ]]> -->`;

describe('the plate as SVG text', () => {
  it('is well formed, alone and over a film, bare and full', () => {
    for (const picture of [null, PICTURE]) {
      for (const labels of [[], EVERY_LABEL]) {
        const names = readXml(sceneToSvg(drawPlate(foot({ picture, labels }))));
        expect(names[0]).toBe('svg');
        expect(names.filter((name) => name === 'svg')).toHaveLength(1);
        expect(names.includes('image')).toBe(picture !== null);
      }
    }
  });

  it('names its layers', () => {
    const svg = sceneToSvg(drawPlate(foot({ picture: PICTURE })));
    for (const layer of LAYERS) expect(svg).toContain(`data-layer="${layer}"`);
  });

  it('carries which landmark and which measure a mark belongs to', () => {
    const svg = sceneToSvg(drawPlate(foot()));
    expect(svg).toContain('data-landmark="p3.tip"');
    expect(svg.match(/data-measure="palmar-angle"/g)).toHaveLength(2);
  });

  it('holds no script, no style attribute, no event and no tab stop', () => {
    for (const standalone of [false, true]) {
      const svg = sceneToSvg(drawPlate(foot({ picture: PICTURE })), { standalone });
      expect(svg).not.toMatch(/<script|\sstyle=|\son[a-z]+=|tabindex/i);
      expect(svg.includes('<style>')).toBe(standalone);
    }
  });

  it('escapes whatever names, words and references bring', () => {
    const scene = drawPlate(
      foot({
        placed: new Map([
          [NASTY, { x: 10, y: 10 }],
          ['p3.tip', { x: 50, y: 60 }],
        ]),
        labels: [{ ...label(NASTY), words: NASTY, text: NASTY }],
        landmarkWords: new Map([['p3.tip', NASTY]]),
        markerWords: NASTY,
        picture: { ...PICTURE, href: `films/${NASTY}.png` },
        highlight: NASTY,
      }),
    );
    const svg = sceneToSvg(scene, { standalone: true, classes: [NASTY], palette: { ink: NASTY } });
    const names = readXml(svg);
    expect(names).not.toContain('script');
    expect(svg).toContain('&lt;script&gt;');
  });

  it('shows pictures only from places that cannot run', () => {
    const shown = (href: string): boolean =>
      readXml(sceneToSvg(drawPlate(foot({ picture: { ...PICTURE, href } })))).includes('image');
    for (const href of ['a b/c.png', 'data:image/png;base64,AA', 'https://x/y.png', 'vscode-webview-resource:y']) {
      expect(shown(href), href).toBe(true);
    }
    for (const href of [
      'javascript:x',
      ' java\nscript:x',
      'data:text/html,x',
      'data:image/svg+xml,<svg/>',
      'vbscript:x',
    ]) {
      expect(shown(href), href).toBe(false);
    }
  });

  it('writes a picture of 20 MB as fast as another writer of texts does', () => {
    const href = `data:image/png;base64,${'iVBORw0K'.repeat(2_500_000)}`;
    const scene = drawPlate(foot({ picture: { ...PICTURE, href } }));
    const processor = (work: () => string): { readonly used: number; readonly text: string } => {
      const begun = process.cpuUsage();
      const text = work();
      const { user, system } = process.cpuUsage(begun);
      return { used: user + system, text };
    };
    const peer = processor(() => JSON.stringify(href));
    const written = processor(() => sceneToSvg(scene));
    expect(written.text).toContain(href);
    // Letter by letter it was some hundred times as slow.
    expect(written.used / peer.used).toBeLessThan(15);
  });

  it('takes every colour from a property with a fallback, and none in a file that stands alone', () => {
    expect(INK_CSS).not.toMatch(/@(ink|paper|quiet|a|b|film|lettering)/);
    expect(INK_CSS.match(/(fill|stroke): (?!none|transparent|var\(--ungula-)/g)).toBeNull();
    expect(inkCss({ accentA: '#123456' })).toContain('#123456');
    expect(inkCss({})).not.toContain('var(');
  });

  it('says what it shows to those who cannot see it', () => {
    const svg = sceneToSvg(drawPlate(foot({ labels: EVERY_LABEL.slice(0, 1) })));
    expect(svg).toContain('role="img"');
    expect(svg).toContain('left fore foot, lateral view');
    expect(svg).toContain('1 measure lettered');
  });
});

describe('an empty plate', () => {
  const empty = {
    placed: new Map(),
    ground: null,
    marker: null,
    labels: [],
    sentence: 'Place the tip & go on.',
  };

  it('shows a faint foot of no horse and the sentence', () => {
    const scene = drawPlate(foot(empty));
    expect(scene.ghost).toBe(true);
    expect(nodes(scene.layers.find((l) => l.data?.layer === 'landmarks')!)).toHaveLength(1);
    const svg = sceneToSvg(scene);
    readXml(svg);
    expect(svg).toContain('class="ghost"');
    expect(svg).toContain('Place the tip &amp; go on.');
  });

  it('draws no foot over a film, where it would pass for a reading', () => {
    const scene = drawPlate(foot({ ...empty, picture: PICTURE }));
    expect(scene.ghost).toBe(false);
    expect(nodes(scene.layers.find((l) => l.data?.layer === 'bones')!)).toHaveLength(1);
    expect(sceneToSvg(scene)).toContain('go on.');
  });
});
