import type { Tag } from './blocks.ts';
import { bytesOf, facesOf } from './faces.ts';
import { boxRoom, nameOfSign, nameScale, type SetLine, type Run } from './lines.ts';

type Structure = ReturnType<PDFKit.PDFDocument['struct']>;

/** Where words go that have an outline around them, so that they are read on a drawing. */
export interface Outline {
  readonly colour: string;
  readonly width: number;
}

export interface LineInk {
  readonly size: number;
  /** Instead of the colours of the line itself. */
  readonly colour?: string;
  readonly opacity?: number;
  readonly outline?: Outline | null;
}

/** Draws on the sheets of one document. Lengths in points, from the upper left. */
export class Pen {
  readonly doc: PDFKit.PDFDocument;
  readonly #root: Tag;
  readonly #structures = new Map<Tag, Structure>();
  readonly #faces = new Set<string>();
  #isMarked = false;

  constructor(doc: PDFKit.PDFDocument, root: Tag) {
    this.doc = doc;
    this.#root = root;
  }

  /** What is drawn belongs to an element of the tree of tags; null for what only adorns. */
  tagged(tag: Tag | null, draw: () => void): void {
    if (this.#isMarked) {
      draw();
      return;
    }
    this.#isMarked = true;
    if (tag === null) this.doc.markContent('Artifact', { type: 'Layout' });
    else this.#structureOf(tag).add(this.doc.markStructureContent(tag.role));
    draw();
    this.doc.endMarkedContent();
    this.#isMarked = false;
  }

  #structureOf(tag: Tag): Structure {
    const known = this.#structures.get(tag);
    if (known) return known;
    const about = { ...(tag.alt && { alt: tag.alt }), ...(tag.scope && { scope: tag.scope }) };
    const structure = this.doc.struct(tag.role, about);
    if (tag === this.#root || tag.parent === null) this.doc.addStructure(structure);
    else this.#structureOf(tag.parent).add(structure);
    this.#structures.set(tag, structure);
    return structure;
  }

  /** A line of words; `y` is where they stand. */
  line(line: SetLine, x: number, y: number, ink: LineInk): void {
    for (const run of line.runs) this.#run(run, x + run.x * ink.size, y, ink);
  }

  #run(run: Run, x: number, y: number, ink: LineInk): void {
    const { doc } = this;
    const colour = ink.colour ?? run.inline.colour;
    const size = ink.size * run.inline.scale;
    if (run.face === null) {
      const small = size * nameScale;
      const face = facesOf[run.inline.style][0];
      if (!face) return;
      doc
        .save()
        .lineWidth(size * 0.05)
        .undash();
      doc.rect(x + size * 0.04, y - size * 0.68, run.width * ink.size - size * 0.08, size * 0.84).stroke(colour);
      doc.restore();
      this.#face(face.name)
        .fontSize(small)
        .fillColor(colour, ink.opacity ?? 1);
      doc.text(nameOfSign(run.text), x + size * boxRoom, y, { lineBreak: false, baseline: 'alphabetic' });
      return;
    }
    this.#face(run.face.name).fontSize(size);
    // Letters that run to the left are shaped together with the blanks between them: naming features makes it so.
    const options = { lineBreak: false, baseline: 'alphabetic', ...(run.toLeft && { features: [] }) } as const;
    if (ink.outline) {
      doc.save().lineWidth(ink.outline.width).lineJoin('round').strokeColor(ink.outline.colour, 1);
      doc.text(run.text, x, y, { ...options, fill: false, stroke: true });
      doc.restore();
    }
    doc.fillColor(colour, ink.opacity ?? 1);
    if (run.toLeft) doc.markContent('Span', { actual: run.said });
    doc.text(run.text, x, y, { ...options, fill: true, stroke: false });
    if (run.toLeft) {
      doc.endMarkedContent();
      this.#nameMarks();
    }
    if (run.inline.href !== null) doc.link(x, y - size, run.width * ink.size, size * 1.2, run.inline.href);
  }

  /** The dots of Arabic letters are shapes of their own, without a letter. Who copies the words is given a joiner for one, which nothing shows. */
  #nameMarks(): void {
    const { _font: font } = this.doc as unknown as { readonly _font: { readonly unicode: number[][] } };
    for (const [index, letters] of font.unicode.entries()) if (letters.length === 0) font.unicode[index] = [0x200d];
  }

  #face(name: string): PDFKit.PDFDocument {
    if (!this.#faces.has(name)) {
      this.doc.registerFont(name, bytesOf(name) as Buffer);
      this.#faces.add(name);
    }
    return this.doc.font(name);
  }

  rule(x: number, y: number, width: number, weight: number, colour: string): void {
    this.tagged(null, () => {
      this.doc.save().lineWidth(weight).undash();
      this.doc
        .moveTo(x, y)
        .lineTo(x + width, y)
        .stroke(colour);
      this.doc.restore();
    });
  }

  upright(x: number, y: number, height: number, weight: number, colour: string): void {
    this.tagged(null, () => {
      this.doc.save().lineWidth(weight).undash();
      this.doc
        .moveTo(x, y)
        .lineTo(x, y + height)
        .stroke(colour);
      this.doc.restore();
    });
  }
}
