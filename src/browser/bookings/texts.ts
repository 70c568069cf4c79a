/** Every text of bookings and closed days, in one place. */

export const texts = {
  today: {
    title: 'Booked for today',
    begin: 'begin the visit',
    beginOf: (who: string) => `${who} is here: begin the visit`,
    anyTime: 'today',
    noName: 'no name',
    unread: 'no service known',
    noNetwork: 'The service does not answer. Begin a walk-in; the booking can wait.',
  },
  diary: 'Show',
  parts: { read: 'Read the diary', words: 'Its words', closed: 'Closed days' },
  read: {
    title: 'Read the diary',
    why:
      'Export the appointment book as an iCalendar file (.ics) or a table (.csv). What is booked ' +
      'then counts in what will be used, and today’s visits begin from it. Of a name only the ' +
      'first name and an initial are kept; notes, numbers and addresses are never read.',
    table: 'A table has the columns start, what, who; end, id and state may be added.',
    choose: 'Choose a file',
    or: 'Or paste its text here',
    chosen: (name: string) => `Chosen: ${name}`,
    named: 'In a title the client stands',
    places: { first: 'first', last: 'last', none: 'not at all' },
    whole: 'This is the whole diary: what is not in it any more was called off',
    look: 'Look at it first',
    take: 'Take it over',
    taken: 'Taken over.',
    nothing: 'Choose a file or paste its text first.',
    counts: (found: number) =>
      found === 1
        ? 'The file has 1 time between a year ago and a year ahead.'
        : `The file has ${found} times between a year ago and a year ahead.`,
    words: { added: 'new', changed: 'changed', calledOff: 'called off', same: 'as before' },
    older: 'older than what is kept',
    unread: (count: number) =>
      count === 1
        ? 'Of 1 time to come no service is known yet: say what its words mean.'
        : `Of ${count} times to come no service is known yet: say what their words mean.`,
    toWords: 'Say what the words mean',
    examples: 'The first to come, as they would be kept',
    day: 'day',
    who: 'who',
    what: 'words',
    services: 'services',
    none: 'not known',
  },
  words: {
    title: 'What the diary’s words mean',
    why:
      'Rules are tried from the top down, each takes its words out of what is left. Then the ' +
      'names of the menu’s services are tried.',
    noWords: 'No diary has been read yet.',
    unreadTitle: 'Not known yet',
    allRead: 'Every word of the diary is known.',
    means: (what: string) => `“${what}” means`,
    saidNothing: 'nothing but a name',
    notAVisit: 'not a visit',
    notAVisitOf: (what: string) => `“${what}” is not a visit`,
    booked: (upcoming: number, all: number) => `${upcoming} to come, ${all} in all`,
    rules: 'Rules',
    noRules: 'No rule yet: the names of the menu alone are found.',
    up: 'up',
    upOf: (words: string) => `Try “${words}” earlier`,
    away: 'remove',
    awayOf: (words: string) => `Remove the rule for “${words}”`,
    another: (words: string) => `“${words}” means also`,
    matches: (count: number) => (count === 1 ? 'found in 1 booking' : `found in ${count} bookings`),
    newTitle: 'A new rule',
    lookFor: 'Words to look for',
    finds: 'It would find',
    findsNone: 'Nothing in the diary has these words.',
    readTitle: 'What is known',
    meaning: 'means',
    alsoMeans: 'means also',
    word: 'words',
    count: 'bookings',
  },
  closed: {
    title: 'Closed days',
    why: 'On closed days nothing is used; the forecast and the reorder points know of them.',
    none: 'No day is closed.',
    from: 'First day',
    to: 'Last day',
    name: 'Why',
    add: 'Close these days',
    away: 'open again',
    awayOf: (days: string) => `Open again: ${days}`,
    order: 'The last day is before the first one.',
    needed: 'Choose the first day.',
    holidays: 'Public holidays from a calendar file',
    taken: (added: number, same: number) =>
      `${added === 1 ? '1 day was' : `${added} days were`} added, ${same} were there already.`,
    past: 'Gone by',
  },
} as const;
