import { markDocument, type MarkedStudent } from '../../shared/export/marked.ts';
import { shownJson, shownLines } from '../../shared/export/shown-characters.ts';
import { ClassTally } from '../../shared/lessons/class-tally.ts';
import type { MarkedFilm } from '../../shared/lessons/marked-case.ts';
import { isOffKey } from '../../shared/lessons/off-key.ts';
import { classLines, studentLines } from '../../shared/views/marked-lines.ts';
import type { Io } from './command.ts';

/** Tells a class file by file: the table at once, so that nobody's is kept; JSON as one document at the end. */
export class ToldClass {
  private readonly format: 'table' | 'json';
  private readonly io: Io;
  private readonly tally = new ClassTally();
  private readonly students: MarkedStudent[] = [];

  constructor(format: 'table' | 'json', io: Io) {
    this.format = format;
    this.io = io;
  }

  add(file: string, films: readonly MarkedFilm[]): void {
    const student = { file, agrees: !films.some(isOffKey), films };
    this.tally.add(films, !student.agrees);
    if (this.format === 'json') this.students.push(student);
    else this.io.out(shownLines(studentLines(student)));
  }

  /** Once, after the last file. `key`: what they were held against. */
  end(key: string): void {
    if (this.format === 'json') this.io.out(shownJson(markDocument(key, this.students, this.tally)));
    else this.io.out(shownLines(classLines(this.tally)));
  }

  /** 1 where something of anybody's is off the key. */
  get status(): 0 | 1 {
    return this.tally.studentsOff > 0 ? 1 : 0;
  }
}
