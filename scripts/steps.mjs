// Plain JavaScript for Node 20: this runs before anything is installed.
import { spawn } from 'node:child_process';
import { resolve } from 'node:path';

export const ROOT = resolve(import.meta.dirname, '..');

/**
 * The npm that is running this, or the one on the path.
 * @param {...string} args
 * @returns {string[]}
 */
export function npm(...args) {
  const cli = process.env['npm_execpath'];
  if (cli !== undefined && /\.c?js$/.test(cli)) return [process.execPath, cli, ...args];
  return [process.platform === 'win32' ? 'npm.cmd' : 'npm', ...args];
}

/** @param {string} text */
export function heading(text) {
  console.log(`\n== ${text}`);
}

/** @param {number} since */
export function elapsed(since) {
  const seconds = (Date.now() - since) / 1000;
  return seconds < 100 ? `${seconds.toFixed(1)} s` : `${Math.floor(seconds / 60)} min ${Math.round(seconds % 60)} s`;
}

/**
 * @typedef {object} Step
 * @property {string} title
 * @property {string[]} argv
 * @property {string} remedy what to do where it fails
 * @property {number} limitMinutes
 * @property {number[]} [good] statuses that are no failure
 * @property {boolean} [dots] for a program that is silent for long
 */

/**
 * One step under its heading, its output passed through, its time at the end.
 * @param {Step} step
 * @returns {Promise<boolean>} whether it went well
 */
export async function run(step) {
  const { title, argv, remedy, limitMinutes, good = [0], dots = false } = step;
  const began = Date.now();
  heading(title);
  const ticking = dots ? setInterval(() => process.stdout.write('.'), 2000) : undefined;
  const ending = await ended(argv, limitMinutes * 60_000);
  clearInterval(ticking);
  if (dots) process.stdout.write('\n');
  const well = typeof ending === 'number' && good.includes(ending);
  if (well) console.log(`-- done in ${elapsed(began)}`);
  else {
    const how = typeof ending === 'number' ? `status ${ending}` : ending;
    console.log(`-- FAILED after ${elapsed(began)} with ${how}\n   what to do: ${remedy}`);
  }
  return well;
}

/**
 * @param {string[]} argv
 * @param {number} limit milliseconds
 * @returns {Promise<number | string>} its status, or in words how else it ended
 */
function ended(argv, limit) {
  const [program = '', ...args] = argv;
  // Its own process group, since npm's shell would not hand a signal on to what it runs.
  const child = spawn(program, args, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit'], detached: true });
  return new Promise((resolve) => {
    let late = false;
    let interrupted = false;
    /** @type {NodeJS.Timeout | undefined} */
    let kill;
    const stop = () => {
      // First in kindness: the host tests then end the server and the browser that they started.
      signalAll(child, 'SIGTERM');
      kill ??= setTimeout(() => signalAll(child, 'SIGKILL'), 10_000);
    };
    const limiter = setTimeout(() => {
      late = true;
      stop();
    }, limit);
    const interrupt = () => {
      interrupted = true;
      stop();
    };
    process.on('SIGINT', interrupt);
    process.on('SIGTERM', interrupt);
    /** @param {number | string} ending */
    const end = (ending) => {
      clearTimeout(limiter);
      clearTimeout(kill);
      process.off('SIGINT', interrupt);
      process.off('SIGTERM', interrupt);
      if (interrupted) process.exit(130);
      resolve(late ? `no end within ${limit / 60_000} minutes` : ending);
    };
    child.once('error', (error) => end(error.message));
    child.once('exit', (code, signal) => end(code ?? signal ?? 'no status'));
  });
}

/**
 * @param {import('node:child_process').ChildProcess} child
 * @param {'SIGTERM' | 'SIGKILL'} signal
 */
function signalAll(child, signal) {
  try {
    if (child.pid !== undefined && process.platform !== 'win32') process.kill(-child.pid, signal);
    else child.kill(signal);
  } catch {
    // Gone already.
  }
}
