/** Refusals about people: signing in, roles, benches, tokens. */
import { refusal } from './refusal.js';

export const peopleProblems = {
  wrong_pin: refusal<{ triesLeft: number }>('unauthenticated', 'Wrong PIN', ({ triesLeft }) =>
    triesLeft === 1
      ? 'This PIN is not right. After one more wrong one this person must wait on this device.'
      : `This PIN is not right. ${triesLeft} more tries before a pause.`,
  ),
  pin_locked: refusal<{ seconds: number }>(
    'too_often',
    'Too many wrong PINs',
    ({ seconds }) =>
      `This person is locked on this device for another ${waiting(seconds)}. ` +
      'An owner can give a new PIN, which ends the wait.',
  ),
  no_pin_yet: refusal<{ name: string }>(
    'refused',
    'No PIN yet',
    ({ name }) => `${name} has no PIN. An owner gives one on the page People.`,
  ),
  last_owner: refusal<{ name: string }>(
    'refused',
    'The last owner',
    ({ name }) =>
      `${name} is the only owner who can sign in. Make somebody else owner, with a PIN, first.`,
  ),
  fixed_by_movements: refusal<{ field: string }>(
    'conflict',
    'Fixed since the first movement',
    ({ field }) =>
      `The ${field} was fixed by the first movement of stock. Open another studio to use another.`,
  ),
  retired: refusal<{ name: string }>(
    'refused',
    'Retired',
    ({ name }) => `${name} is retired and cannot be used any more. Choose another.`,
  ),
  studio_is_open: refusal<Record<string, never>>(
    'conflict',
    'There is a studio already',
    () =>
      'A studio of one’s own is open here. Sign in to it, or open another on the computer where ' +
      'Bowlworth runs: bowlworth studio --help',
  ),
  wrong_opening_code: refusal<{ triesLeft: number }>(
    'unauthenticated',
    'Wrong opening code',
    ({ triesLeft }) =>
      triesLeft > 0
        ? 'This is not the code. It stands beside "your own" in the window where Bowlworth was ' +
          'started, or open the page on that computer, where none is needed.'
        : 'Too many wrong codes: it opens nothing any more. Start Bowlworth anew for another, or ' +
          'open the page on that computer, where none is needed.',
  ),
  needs_a_person: refusal<Record<string, never>>(
    'forbidden',
    'Nobody in particular',
    () => 'This needs a person. Sign in with a name and PIN on this device.',
  ),
};

function waiting(seconds: number): string {
  const minutes = Math.ceil(seconds / 60);
  return minutes === 1 ? 'minute' : `${minutes} minutes`;
}
