/** Texts of a visit at the bench: what is asked first, the last time, planned bowls, formulas. */
import { number, weight } from '../shell/figures.js';

export const visitTexts = {
  page: {
    since: (time: string) => `since ${time}`,
    nextTime: 'From the last time',
    bowls: 'Bowls',
    noBowls: 'No bowl is planned or open.',
    planAnother: 'Plan a bowl',
    mixNow: 'mix now',
    mixNowOf: (bowl: string) => `mix now: ${bowl}`,
    fewer: (bowl: string) => `5 g less: ${bowl}`,
    more: (bowl: string) => `5 g more: ${bowl}`,
    takeOff: (bowl: string) => `Take off: ${bowl}`,
    gone: 'This visit is not among those of today.',
    pastTheQuote: 'Past the quote: tell her before mixing more.',
    settled: 'Settled',
  },
  asked: {
    title: 'Before the first bowl',
    how: 'Ask, and tap what was said. It is kept apart and told to nobody as such.',
    notAsked: 'not asked yet',
    answered: 'answered',
    yes: 'yes',
    no: 'no',
    scalpSound: 'The scalp: a rash, anything sensitive, irritated or damaged?',
    sound: 'nothing seen',
    earlierReaction: 'An earlier reaction to hair colour, or to a black-henna tattoo?',
    hennaOrMetal: 'Henna or metallic salts on this hair before?',
    sixteenOrOlder: '16 or older?',
    sensitivityTest: 'Sensitivity test for this line of colour',
    tests: {
      none: 'none',
      'under 48 h': 'placed less than 48 h ago',
      'not read': 'placed 48 h ago, not read',
      'no reaction': 'read: no reaction',
      reaction: 'read: a reaction',
    },
    booking: 'what was asked before the first bowl',
  },
  powder: {
    title: 'First powder of the day',
  },
  last: {
    key: 'As last time',
    title: (date: string) => `Last time: ${date}`,
    none: 'Nothing is known of an earlier visit.',
    all: (bowls: number) => (bowls === 1 ? 'Plan this bowl' : `Plan all ${bowls} bowls`),
    size: (visits: number, low: string, high: string) =>
      visits === 1
        ? `last time it took ${weight(high)}`
        : low === high
          ? `the last ${visits} like this took ${weight(high)}`
          : `the last ${visits} like this took ${weight(low)} to ${weight(high)}`,
    plan: (grams: string) => `plan ${weight(grams)}`,
    ranOut: 'it ran out then',
  },
  formula: {
    title: 'Keep as a formula',
    keep: (bowl: string) => `Keep as a formula: ${bowl}`,
    keepShort: 'keep as a formula',
    kept: 'Kept.',
    name: 'Name',
    which: 'Keep what was',
    ways: { poured: 'poured', planned: 'planned' },
    minutes: 'Minutes on the hair',
    nextTime: 'Next time',
    nextTimeHow: 'One line, the first thing seen at the next visit.',
    save: 'Keep it',
    badMinutes: 'Type whole minutes, 600 at most.',
    booking: (name: string) => `formula ${name}: kept`,
    lineBooking: 'a line for the next time',
    saved: 'Formulas',
    ofClient: (name: string, grams: string | null) =>
      grams === null ? name : `${name}, ${weight(grams)}`,
  },
  start: {
    key: 'Another visit',
    title: 'A visit begins',
    kind: 'It is for',
    kinds: {
      client: 'a client',
      model: 'a model',
      training: 'training',
      test: 'a strand or sensitivity test',
      'own staff': 'own staff',
    },
    client: 'Client',
    find: 'Find a client by name or number',
    nobody: 'nobody of the list: a walk-in, named later',
    found: (count: number) => `${number(`${count}`)} found`,
    services: 'Services',
    go: 'Begin',
  },
} as const;
