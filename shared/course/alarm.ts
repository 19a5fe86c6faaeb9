import { certainty, TrendLine, Mean, PERHAPS, surer, type Certainty, type FilmLevel, type Rise } from './rise.ts';

/** What is looked for in a series: how much counts at all, and how near the old mean ends it. */
export interface AlarmRule {
  /** In the unit of the values. */
  readonly floor: number;
  /** Two later days within this of the old mean end an alarm. */
  readonly back: number;
}

/** Something that rose, from the day on which it was first told. */
export interface Alarm {
  /** Where the series begins that it was told against, and the day on which it was first told. */
  readonly since: number;
  readonly raised: number;
  /** The surest that it has been, and the rise as it stands on the newest day. */
  readonly certainty: Exclude<Certainty, 'none'>;
  readonly rise: Rise;
  /** The day of which `rise` speaks: the newest on which there was one. */
  readonly asOf: number;
  /** Mean of the days before it. */
  readonly before: number;
  /** Days of films before `asOf`, from the beginning of the series. */
  readonly earlier: number;
  /** Whether no step from one day to the next was more than its own error. */
  readonly creeping: boolean;
  readonly ended: Ended | null;
}

export type Ended = { readonly by: 'vet'; readonly day: number } | { readonly by: 'films'; readonly day: number };

/** What a series says on its newest day. */
export interface Watched {
  /** In the order in which they were raised; at most the last is open. */
  readonly alarms: readonly Alarm[];
  /** From where on a rise would have been told on the newest day; null where there is nothing to compare with. */
  readonly seenFrom: number | null;
}

/**
 * Goes through a series day by day. An alarm stays open until the vet has seen the animal after it, or until two later
 * days lie near the old mean. After a vet's visit the series begins anew with the newest film that the vet could know.
 * `vetDays` ascending.
 */
export function watch(levels: readonly FilmLevel[], rule: AlarmRule, vetDays: readonly number[]): Watched {
  const watching = new Watching(rule, vetDays);
  for (const level of levels) watching.take(level);
  return watching.end();
}

class Watching {
  private readonly rule: AlarmRule;
  private readonly vetDays: readonly number[];
  private readonly ended: Alarm[] = [];
  private open: Alarm | null = null;
  /** Days since the alarm that lay near the old mean. */
  private near = 0;
  private first: FilmLevel | null = null;
  private last: FilmLevel | null = null;
  private count = 0;
  private line = new TrendLine();
  private mean = new Mean();
  private creeping = true;
  private seenFrom: number | null = null;

  constructor(rule: AlarmRule, vetDays: readonly number[]) {
    this.rule = rule;
    this.vetDays = vetDays;
  }

  take(level: FilmLevel): void {
    this.seenByVet(level.day);
    const { last, rule, mean, line } = this;
    if (last && level.value - last.value > PERHAPS * stepSd(last, level)) this.creeping = false;
    const newest = mean.rise(level);
    line.add(level);
    const rise = surerAbove(newest, line.rise(), rule.floor);
    const sure = rise ? certainty(rise, rule.floor) : 'none';
    this.seenFrom = newest && Math.max(rule.floor, PERHAPS * newest.sd);
    if (this.open) this.again(this.open, level, rise, sure);
    else if (rise && this.first && sure !== 'none')
      this.open = {
        since: this.first.day,
        raised: level.day,
        certainty: sure,
        rise,
        asOf: level.day,
        before: mean.value,
        earlier: this.count,
        creeping: this.creeping,
        ended: null,
      };
    this.keep(level);
  }

  end(): Watched {
    this.seenByVet(Infinity);
    const { ended, open, seenFrom } = this;
    return { alarms: open ? [...ended, open] : ended, seenFrom };
  }

  private keep(level: FilmLevel): void {
    this.first ??= level;
    this.last = level;
    this.count += 1;
    this.mean.add(level);
  }

  /** A later day of a series with an open alarm. */
  private again(open: Alarm, level: FilmLevel, rise: Rise | null, sure: Certainty): void {
    if (Math.abs(level.value - open.before) <= this.rule.back) this.near += 1;
    if (this.near >= 2) {
      this.close({ by: 'films', day: level.day });
      return;
    }
    this.open = {
      ...open,
      certainty: sure === 'clear' ? 'clear' : open.certainty,
      rise: rise && sure !== 'none' ? rise : open.rise,
      asOf: sure === 'none' ? open.asOf : level.day,
      earlier: sure === 'none' ? open.earlier : this.count,
      creeping: open.creeping && this.creeping,
    };
  }

  /** Closes an open alarm where the vet has seen the animal since; the last film before is the new beginning. */
  private seenByVet(upTo: number): void {
    const { open, last } = this;
    const day = open ? this.vetDays.find((one) => one >= open.raised && one <= upTo) : undefined;
    if (day === undefined || !last) return;
    this.close({ by: 'vet', day });
    this.first = null;
    this.count = 0;
    this.line = new TrendLine();
    this.mean = new Mean();
    this.creeping = true;
    this.line.add(last);
    this.keep(last);
  }

  private close(ended: Ended): void {
    if (this.open) this.ended.push({ ...this.open, ended });
    this.open = null;
    this.near = 0;
  }
}

/** One standard deviation of the step from one day to the next. */
function stepSd(last: FilmLevel, level: FilmLevel): number {
  const shared = level.sharedWith?.(last) ?? 0;
  return Math.sqrt(Math.max(0, level.variance + last.variance - 2 * shared));
}

/** Of both ways to see a rise the surer one, of those that pass the floor. */
function surerAbove(newest: Rise | null, trend: Rise | null, floor: number): Rise | null {
  const above = (rise: Rise | null): Rise | null => (rise && rise.by > floor ? rise : null);
  return surer(above(newest), above(trend)) ?? newest;
}
