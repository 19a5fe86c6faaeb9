import { t } from '../../shared/language/words.ts';
import type { Connection, WorkDoneProgressServerReporter } from 'vscode-languageserver';
import type { IndexProgress } from './case-index.ts';

/** Progress is shown from this many files on; fewer are read too fast to see it. */
const worthTelling = 20;
/** Between two reports, ms. */
const pace = 100;

/** How far reading has come, shown by a client that can; there it can be stopped too. */
export class ReadingProgress implements IndexProgress {
  private readonly connection: Connection;
  private readonly stop: () => void;
  private shown: { reporter: WorkDoneProgressServerReporter | null } | null = null;
  private last = 0;

  constructor(connection: Connection, stop: () => void) {
    this.connection = connection;
    this.stop = stop;
  }

  at(done: number, total: number): void {
    if (!this.shown && total > worthTelling) this.begin();
    const now = performance.now();
    if (now - this.last < pace) return;
    this.last = now;
    this.shown?.reporter?.report((100 * done) / total, t('{0} of {1}', done, total));
  }

  end(): void {
    this.shown?.reporter?.done();
    this.shown = null;
  }

  /** Reading does not wait for the client to create the progress. */
  private begin(): void {
    const shown: ReadingProgress['shown'] = { reporter: null };
    this.shown = shown;
    this.connection.window.createWorkDoneProgress().then(
      (reporter) => {
        if (this.shown !== shown) return;
        reporter.begin(t('Ungula: reading the case files'), 0, undefined, true);
        reporter.token.onCancellationRequested(this.stop);
        shown.reporter = reporter;
      },
      () => {
        // The client shows no progress; the files are read all the same.
      },
    );
  }
}
