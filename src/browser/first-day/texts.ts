/** Every text of the first day and of the pages it leads to, in one place. */
import { vol } from '../shell/figures.js';

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
  title: 'First day',
  parts: {
    products: (count: number) => `Products: ${count}`,
    shelf: (done: number, of: number) => `On the shelf: ${done} of ${of}`,
    menu: (count: number) => `Services: ${count}`,
    people: (count: number) => `People: ${count}`,
  },
  toBench: 'To the bench',
  toPeople: 'People and devices',
  fiveMinutes:
    'Two products are enough to mix a bowl. The rest can be done in any order, and left and ' +
    'come back to.',
  done: 'The first day is over',
  doneHow: 'Its pages stay within reach of the page Shelf.',
  kinds: {
    lightener: 'lightener',
    developer: 'developer',
    toner: 'toner',
    permanent: 'permanent colour',
    direct: 'direct colour',
    additive: 'additive',
    care: 'care',
    sundry: 'sundry',
    water: 'water',
  },
  products: {
    title: 'Products',
    there: (count: number) => (count === 1 ? '1 is there' : `${count} are there`),
    way: 'How to enter them',
    ways: { tick: 'tick them', paste: 'paste a list', scan: 'scan bar codes' },
    entered: (count: number) => (count === 1 ? '1 product entered.' : `${count} products entered.`),
    toShelf: 'Put them on the shelf',
    tooMany: (most: number) => `Enter at most ${most} at once: split the list.`,
  },
  lists: {
    names: {
      developers: 'Developers',
      lighteners: 'Lightener',
      toners: 'Toner',
      permanents: 'Permanent colour',
      additives: 'Additives',
      sundries: 'Beside the bowl',
    },
    singular: {
      developers: 'Developer',
      lighteners: 'Lightener',
      toners: 'Toner',
      permanents: 'Colour',
      additives: 'Additive',
      sundries: '',
    },
    typed: {
      developers: 'Other strengths, such as 7, 1.9 %',
      lighteners: 'Others, separated by commas',
      toners: 'Shades, separated by commas',
      permanents: 'Shades, separated by commas',
      additives: 'Others, separated by commas',
      sundries: 'Others, separated by commas',
    },
    ticks: {
      powder: 'Lightener powder',
      clay: 'Lightener clay',
      cream: 'Lightener cream',
      clear: 'Toner clear',
      bond: 'Bond additive',
      oil: 'Oil additive',
      foils: 'Foils',
      gloves: 'Gloves',
      capes: 'Capes',
    },
    vessels: { tub: 'tub', bottle: 'bottle', tube: 'tube', box: 'box' },
    developer: (strength: string) => `Developer ${vol(strength).replace('\u00a0', ' ')}`,
    developerPercent: (percent: string) => `Developer ${percent} %`,
    own: (kind: string, text: string) => `${kind} ${text}`.trim(),
    line: 'Line, as on the pack (may be empty)',
    size: (vessel: string, unit: string) =>
      unit === 'piece' ? `Pieces in a ${vessel}` : `A ${vessel} holds, ${unit}`,
    empty: (vessel: string) => `An empty ${vessel} weighs, g (may be empty)`,
    sizeWrong: (text: string) => `“${text}” is no size. Type a figure such as 500.`,
    emptyWrong: (text: string) => `“${text}” is no weight. Type grams such as 38, or nothing.`,
    strengthWrong: (text: string) => `“${text}” is no strength. Type 7 for 7 vol, or 1.9 %.`,
    known: (name: string) => `${name} is there already. Take its tick off.`,
    toEnter: 'To be entered',
    enter: (count: number) =>
      count === 0
        ? 'Nothing to enter yet'
        : count === 1
          ? 'Enter this product'
          : `Enter these ${count} products`,
  },
  paste: {
    field: 'Paste the rows of a spreadsheet',
    how:
      'A name is needed in every row; kind, strength, pack and price where they are known. ' +
      'Prices are read as supplier prices are typed in this studio. Nothing is kept before all ' +
      'rows are right or left out.',
    preview: 'What was pasted',
    column: (at: number) => `What column ${at} holds`,
    columns: {
      name: 'name',
      kind: 'kind',
      line: 'line',
      strength: 'strength',
      pack: 'pack',
      price: 'price of a pack',
      empty: 'empty pack, g',
      gtin: 'bar code',
      code: 'supplier’s number',
      nothing: 'not used',
    },
    becomes: 'becomes',
    out: 'leave out',
    leaveOut: (row: number) => `Leave row ${row} out`,
    bad: (count: number) =>
      count === 1
        ? '1 row cannot be entered. Mend it above, or leave it out.'
        : `${count} rows cannot be entered. Mend them above, or leave them out.`,
    twice: (name: string) => `${name} is there already, on the shelf or in a row above.`,
    gtinTwice: (gtin: string) => `The bar code ${gtin} is in a row above.`,
    nameNeeded: 'It has no name. Say which column holds it.',
    kindNeeded: (name: string) =>
      `What ${name} is cannot be told. Write lightener, developer, toner, permanent, direct, ` +
      'additive, care or sundry in a column.',
    strength: (text: string) => `“${text}” is no strength. Write 20 vol or 6 %.`,
    pack: (text: string) => `“${text}” is no pack. Write 500 g, 1000 ml or 100 pieces.`,
    packNeeded: 'A price, bar code or number belongs to a pack. Write how much is in it: 500 g.',
    price: (text: string) => `“${text}” is no price. Write it as 12.50.`,
    empty: (text: string) => `“${text}” is no weight of an empty pack. Write grams, such as 38.`,
  },
  scan: {
    field: 'Bar code',
    how: 'Hold the reader to one pack after the other, or type the digits and press Enter.',
    name: 'Name',
    kind: 'Kind',
    pack: 'Pack, such as 60 ml tube',
    strength: 'Strength, vol or %',
    drop: (gtin: string) => `Take ${gtin} off`,
    known: (name: string) => `That is ${name}, which is there already.`,
    twice: 'This code is in the list already.',
    nameNeeded: 'Give it a name.',
    packNeeded: 'Say how much is in it: 500 g, 1000 ml, 100 pieces.',
    strengthNeeded: 'Type its strength as on the bottle: 20 vol or 6 %.',
  },
  shelf: {
    still: (count: number) => (count === 0 ? 'Nothing is left to do' : `Still to do: ${count}`),
    there: (count: number) => `On the shelf: ${count}`,
    all: 'All of it is on the shelf.',
    noProducts: 'There are no products yet.',
    toMenu: 'Services',
    toShelf: 'The shelf',
    sealed: (pack: string) => `Sealed packs: ${pack}`,
    price: (pack: string, currency: string) => `Price of one, ${currency} (${pack})`,
    pricesAre: {
      'without tax': 'Prices are typed without tax. No price is not zero: it can be typed later.',
      'tax got back':
        'Prices are typed with the tax that you get back; it is taken off. No price is not zero: ' +
        'it can be typed later.',
      'tax kept':
        'Prices are typed with the tax that you do not get back. No price is not zero: it can be ' +
        'typed later.',
    },
    listed: (price: string, currency: string) =>
      `Without another price it is taken at ${price} ${currency}, as in the list.`,
    started: 'A started one',
    ways: {
      none: 'none',
      'about half': 'about half full',
      weighed: 'put it on the scale',
      loose: 'loose ones',
    },
    looseOf: (unit: string) => (unit === 'piece' ? 'Loose pieces' : `How much is there, ${unit}`),
    gross: 'It weighs, with its pack, g',
    empty: 'The empty pack weighs, g',
    emptyKnown: (grams: string) => `The empty pack weighs, g (known: ${grams})`,
    setDown: 'Set the started pack on the scale.',
    take: (weight: string) => `Take ${weight} from the scale`,
    comesTo: (amount: string) => `That is ${amount}.`,
    put: 'On the shelf, next',
    none: 'None there',
    later: 'Later',
    nothingTyped: 'Type how many sealed packs there are, or say what is started, or “None there”.',
    sealedWrong: (text: string) => `“${text}” is no number of packs. Type 3.`,
    priceWrong: (text: string) => `“${text}” is no price. Type it as 12.50, or nothing.`,
    emptyWrong: (text: string) =>
      `“${text}” is no weight of the empty pack. Type grams, such as 38.`,
    grossWrong: (text: string) =>
      text === ''
        ? 'Put the started pack on the scale, or type what it weighs; else say “about half full”.'
        : `“${text}” is no weight. Type grams, such as 412.`,
    looseWrong: (text: string) => `“${text}” is no quantity. Type a figure such as 120.`,
  },
  menu: {
    title: 'Services',
    how: 'Tick what you offer. A price can be typed later, on the page Pricing.',
    others: 'Others, separated by commas',
    purposes: 'What bowls are for',
    price: (name: string, currency: string) => `Price of ${name}, ${currency} (may be empty)`,
    priceWrong: (name: string, text: string) =>
      `The price of ${name}, “${text}”, cannot be read. Type it as 85.00, or nothing.`,
    enter: (count: number) =>
      count === 0
        ? 'Nothing is ticked yet'
        : count === 1
          ? 'Enter this one'
          : `Enter these ${count}`,
    entered: (count: number) => (count === 1 ? '1 entered.' : `${count} entered.`),
    there: (count: number) => (count === 1 ? '1 service' : `${count} services`),
    noPrice: 'no price yet',
    usual: {
      services: {
        roots: 'Root touch-up',
        allOver: 'All-over colour',
        halfHead: 'Half head of lights',
        fullHead: 'Full head of lights',
        painted: 'Hand-painted lights',
        lighten: 'Lighten and tone',
        gloss: 'Gloss',
        correction: 'Colour correction',
      },
      purposes: {
        hairline: 'hairline',
        front: 'front',
        roots: 'roots',
        lengths: 'lengths',
        back: 'back',
        gloss: 'gloss',
      },
    },
  },
} as const;
