/** Every text of the first day and of the pages it leads to, in one place. */

export const words = {
  open: {
    title: 'Open my own studio',
    why:
      'Five minutes to the first bowl; the rest of the day can wait. What is invented stays in ' +
      'the invented studio.',
    name: 'Name of the studio',
    nameNeeded: 'Type the name of the studio.',
    country: 'Country',
    currency: 'Currency',
    currencyNeeded: 'Choose a currency: it cannot be another once something is on the shelf.',
    timeZone: 'Time zone',
    prices: 'Supplier prices I type are',
    kinds: {
      'without tax': 'without tax',
      'tax got back': 'with tax I get back',
      'tax kept': 'with tax I do not get back',
    },
    pricesNeeded: 'Choose one of the three: it decides what product costs.',
    rate: 'That tax, in per cent',
    rateNeeded: 'Type the rate, such as 23.',
    owner: 'My name',
    ownerNeeded: 'Type your name: you become the owner.',
    pin: 'My PIN, 4 to 8 digits',
    pinNeeded: 'Type 4 to 8 digits. You sign in with them.',
    code: 'Code from the start of Bowlworth',
    codeNeeded:
      'It stands beside “your own” in the window where Bowlworth was started. On that computer ' +
      'none is needed.',
    submit: 'Open the studio',
    look: 'Something is missing above.',
    firstBench: 'First bench',
    notSent: (entries: number) =>
      entries === 1
        ? '1 entry of the studio on this device is not sent. Send it first: it belongs there.'
        : `${entries} entries of the studio on this device are not sent. Send them first: they ` +
          'belong there.',
    already:
      'A studio of your own is open on this installation. The owner makes a token for this ' +
      'device on the page People; another studio is opened on the computer where Bowlworth runs.',
  },
} as const;
