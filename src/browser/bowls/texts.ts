/** Texts of what else is done to a bowl: recognised, divided, moved, weighed out. */
import { weight } from '../shell/figures.js';

export const bowlTexts = {
  plate: {
    title: 'On the plate',
    which: (grams: string) => `${weight(grams)} on the plate. Which bowl is it?`,
    none: 'No open bowl weighs this.',
    keypad: 'Tap the bowl that you hold.',
    newIn: (vessel: string) => `A new bowl: ${vessel}, empty`,
    newBowl: 'A new bowl, empty',
    before: (grams: string) => `held ${weight(grams)}`,
    goesOn: 'It weighs what it weighed: it goes on.',
    vessel: (label: string, mark: string | null) => (mark === null ? label : `${label}, ${mark}`),
  },
  vessel: {
    label: 'Bowl',
    any: 'weighed when it is set down',
    of: (label: string, mark: string | null, grams: string) =>
      [label, mark, weight(grams)].filter(Boolean).join(', '),
  },
  visit: { label: 'For', none: 'no visit: strand test, training' },
  divide: {
    key: 'Divide',
    title: 'Divide the bowl',
    empty: 'Set the second bowl on the scale, empty.',
    over: 'Pour over what goes into it.',
    typed: 'Poured into the second bowl',
    figure: 'poured over',
    done: (grams: string) => `${weight(grams)} are in the second bowl`,
    tooMuch: (grams: string) => `This bowl holds ${weight(grams)} only.`,
    nothing: 'Nothing is in the second bowl yet.',
    whose: 'For whom is the second bowl?',
    same: 'the same visit',
    purpose: 'Purpose of the second bowl',
    untouched: 'Has a brush been in it?',
    clean: 'no, it is untouched',
    brushed: 'yes',
    refused:
      'Only from an untouched bowl. What has been on a brush stays with its client: mix another ' +
      'bowl.',
    into: 'Into the second bowl',
    booked: (grams: string) => `divided: ${weight(grams)} into a second bowl`,
  },
  move: {
    key: 'Another visit',
    title: 'It belongs to another visit',
    how: 'What was poured stays as it is; the bowl is counted under the visit you choose.',
    none: 'No other visit is open today.',
    booked: 'moved to another visit',
  },
  out: {
    key: 'Weigh it out',
    liftBowl: 'Lift the bowl, then set the tub, tube or bottle on the scale.',
    setDown: 'Set the tub, tube or bottle on the scale.',
    take: 'Take out of it, or lift it, pour, and set it down again: what is missing is the pour.',
    liftPack: 'That is it. Take the tub, tube or bottle off the scale.',
    back: 'Pour into the bowl instead',
  },
} as const;
