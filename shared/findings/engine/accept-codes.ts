import type { CodeRow } from '../code-row.ts';

const never = 'An acceptance that does not hold is mended or removed; it is not accepted in its turn.';

/** What is told of the lines that accept other findings. */
export const acceptCodes: readonly (CodeRow & { readonly code: `accept/${string}` })[] = [
  {
    code: 'accept/unknown-code',
    severity: 'error',
    title: 'No such finding',
    about:
      'An acceptance names the code of a finding, such as `range/palmar-angle`. One that no finding has accepts nothing.',
    never,
  },
  {
    code: 'accept/no-reason',
    severity: 'error',
    title: 'Acceptance without a reason',
    about:
      'Whoever reads the case next has to see why a finding was lived with. Without a reason the finding stays as it is.',
    never,
  },
  {
    code: 'accept/never',
    severity: 'error',
    title: 'Finding that nobody may accept',
    about:
      'Signs for which the vet is called now, cuts into what is alive, a bone that sinks, and lines that mean nothing are not lived with. The finding stays as it is.',
    never,
  },
  {
    code: 'accept/nothing',
    severity: 'info',
    title: 'Nothing to accept',
    about:
      'The finding that was accepted is not told in this block, or is accepted already. What is no longer so need not be explained: the line can go.',
  },
];
