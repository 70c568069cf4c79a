/** Times of events beside the examples of RFC 5545 (Internet Calendaring, iCalendar). */
import { eventsIn } from '../../src/studio/bookings/calendar-events.js';
import { seriesIn } from '../../src/studio/bookings/calendar-occurrences.js';

const newYork = 'America/New_York';

/** The zone as section 3.6.5 describes it (its last example but one, rules since 1967 and 1987). */
const describedNewYork = `BEGIN:VTIMEZONE
TZID:Harbour
BEGIN:STANDARD
DTSTART:19671029T020000
RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10
TZOFFSETFROM:-0400
TZOFFSETTO:-0500
TZNAME:EST
END:STANDARD
BEGIN:DAYLIGHT
DTSTART:19870405T020000
RRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=4
TZOFFSETFROM:-0500
TZOFFSETTO:-0400
TZNAME:EDT
END:DAYLIGHT
END:VTIMEZONE`;

function calendar(...events: string[]): string {
  const parts = events.map((event) => `BEGIN:VEVENT\n${event}\nEND:VEVENT`);
  return ['BEGIN:VCALENDAR', describedNewYork, ...parts, 'END:VCALENDAR'].join('\n');
}

/** Starts of all events in UTC, "1997-09-02T13:00", in order. */
function starts(text: string, from = '1997-01-01', to = '1998-01-01', studio = newYork): string[] {
  const stretch = { from: Date.parse(`${from}T00:00Z`), to: Date.parse(`${to}T00:00Z`) };
  return seriesIn(eventsIn(text, studio), stretch)
    .flatMap(({ occurrences }) => occurrences)
    .filter(({ calledOff }) => !calledOff)
    .map(({ start }) => new Date(start).toISOString().slice(0, 16))
    .sort();
}

/** Days and the hour in New York of "1997-09-02 09" and so on, as the RFC lists them. */
function clock(times: string[]): string[] {
  return times.map((time) => {
    const at = new Date(`${time}Z`).toLocaleString('sv-SE', { timeZone: newYork });
    return at.slice(5, 16);
  });
}

const days = (month: string, numbers: readonly number[], hour = '09:00'): string[] =>
  numbers.map((day) => `${month}-${`${day}`.padStart(2, '0')} ${hour}`);

interface RuleRow {
  readonly source: string;
  readonly rule: string;
  readonly expected: readonly string[];
  readonly start?: string;
  readonly until?: string;
}

const rules: readonly RuleRow[] = [
  {
    source: '3.8.5.3, daily for 10 occurrences',
    rule: 'FREQ=DAILY;COUNT=10',
    expected: days('09', [2, 3, 4, 5, 6, 7, 8, 9, 10, 11]),
  },
  {
    source: '3.8.5.3, every 10 days, 5 occurrences',
    rule: 'FREQ=DAILY;INTERVAL=10;COUNT=5',
    expected: [...days('09', [2, 12, 22]), ...days('10', [2, 12])],
  },
  {
    source: '3.8.5.3, weekly until December 24, 1997: nine o’clock in summer and in winter',
    rule: 'FREQ=WEEKLY;UNTIL=19971224T000000Z',
    expected: [
      ...days('09', [2, 9, 16, 23, 30]),
      ...days('10', [7, 14, 21, 28]),
      ...days('11', [4, 11, 18, 25]),
      ...days('12', [2, 9, 16, 23]),
    ],
  },
  {
    source: '3.8.5.3, every other week on Tuesday and Thursday, for 8 occurrences',
    rule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH',
    expected: [...days('09', [2, 4, 16, 18, 30]), ...days('10', [2, 14, 16])],
  },
  {
    source: '3.8.5.3, monthly on the first Friday until December 24, 1997',
    rule: 'FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR',
    start: '19970905T090000',
    expected: [...days('09', [5]), ...days('10', [3]), ...days('11', [7]), ...days('12', [5])],
  },
  {
    source: '3.8.5.3, the third instance of Tuesday, Wednesday or Thursday, next 3 months',
    rule: 'FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3',
    start: '19970904T090000',
    expected: [...days('09', [4]), ...days('10', [7]), ...days('11', [6])],
  },
  {
    source: '3.8.5.3, every 3 hours to 17:00 of its zone, as its list says',
    rule: 'FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T210000Z',
    expected: ['09-02 09:00', '09-02 12:00', '09-02 15:00'],
  },
  {
    source: '3.8.5.3, where the first day of the week matters, WKST=MO',
    rule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO',
    start: '19970805T090000',
    expected: days('08', [5, 10, 19, 24]),
  },
  {
    source: '3.8.5.3, the same with WKST=SU',
    rule: 'FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU',
    start: '19970805T090000',
    expected: days('08', [5, 17, 19, 31]),
  },
];

test.each(rules)('RFC 5545 $source', ({ rule, start = '19970902T090000', expected }) => {
  const named = `UID:1\nDTSTART;TZID=America/New_York:${start}\nRRULE:${rule}`;
  const described = `UID:1\nDTSTART;TZID=Harbour:${start}\nRRULE:${rule}`;
  expect(clock(starts(calendar(named)))).toEqual(expected);
  expect(clock(starts(calendar(described)))).toEqual(expected);
});

test('RFC 5545 3.8.5.1 and 3.8.5.2: times taken out and times added', () => {
  const event = `UID:1
DTSTART;TZID=America/New_York:19970714T123000
RRULE:FREQ=DAILY;COUNT=4
EXDATE;TZID=America/New_York:19970715T123000
EXDATE:19970716T163000Z
RDATE;TZID=America/New_York:19970720T083000
RDATE;VALUE=PERIOD:19970721T000000Z/PT3H`;
  expect(clock(starts(calendar(event)))).toEqual([
    ...['07-14 12:30', '07-17 12:30', '07-20 08:30', '07-20 20:00'],
  ]);
});

test('RFC 5545 3.8.4.4: one time of a series is another time, one is called off', () => {
  const series = 'UID:1\nDTSTART:19960120T120000Z\nRRULE:FREQ=DAILY;COUNT=4';
  const moved = 'UID:1\nRECURRENCE-ID:19960121T120000Z\nDTSTART:19960121T150000Z';
  const off = 'UID:1\nRECURRENCE-ID:19960122T120000Z\nSTATUS:CANCELLED';
  expect(starts(calendar(series, moved, off), '1996-01-01', '1997-01-01')).toEqual([
    ...['1996-01-20T12:00', '1996-01-21T15:00', '1996-01-23T12:00'],
  ]);
});

test('RFC 5545 3.2.13: a change of one time and all after it', () => {
  const series = 'UID:1\nDTSTART:19980401T133000Z\nRRULE:FREQ=DAILY;COUNT=3';
  const changed =
    'UID:1\nRECURRENCE-ID;RANGE=THISANDFUTURE:19980402T133000Z\nDTSTART:19980402T143000Z';
  expect(starts(calendar(series, changed), '1998-01-01', '1999-01-01')).toEqual([
    ...['1998-04-01T13:30', '1998-04-02T14:30', '1998-04-03T14:30'],
  ]);
});

interface FormRow {
  readonly source: string;
  readonly start: string;
  readonly expected: string;
}

const forms: readonly FormRow[] = [
  { source: '3.3.5 form 1, local time', start: ':19980118T230000', expected: '1998-01-19T04:00' },
  { source: '3.3.5 form 2, UTC', start: ':19980119T070000Z', expected: '1998-01-19T07:00' },
  {
    source: '3.3.5 form 3, with a zone',
    start: ';TZID=America/New_York:19980119T020000',
    expected: '1998-01-19T07:00',
  },
  {
    source: '3.3.5, a time that comes twice is the first one',
    start: ';TZID=America/New_York:20071104T013000',
    expected: '2007-11-04T05:30',
  },
  {
    source: '3.3.5, a time that is left out counts by the offset before the gap',
    start: ';TZID=America/New_York:20070311T023000',
    expected: '2007-03-11T07:30',
  },
  { source: '3.3.4, a date', start: ';VALUE=DATE:19970714', expected: '1997-07-14T04:00' },
  { source: '3.1, a folded line', start: ':19970\n 714T133000', expected: '1997-07-14T17:30' },
];

test.each(forms)('RFC 5545 $source', ({ start, expected }) => {
  expect(starts(calendar(`UID:1\nDTSTART${start}`), '1990-01-01', '2020-01-01')).toEqual([
    expected,
  ]);
});

test('RFC 5545 3.8.7.4: of two revisions the higher sequence stands, whatever their order', () => {
  const first = 'UID:1\nSEQUENCE:0\nDTSTART:19970714T120000Z';
  const second = 'UID:1\nSEQUENCE:2\nDTSTART:19970715T120000Z';
  expect(starts(calendar(second, first))).toEqual(['1997-07-15T12:00']);
  expect(starts(calendar(first, second))).toEqual(['1997-07-15T12:00']);
});

interface DamagedRow {
  readonly what: string;
  readonly text: string;
  readonly says: string;
}

const damagedFiles: readonly DamagedRow[] = [
  {
    what: 'a file cut off in an event',
    text: 'BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:1',
    says: 'Line 2: VEVENT begins here and never ends; the file is cut.',
  },
  {
    what: 'a line that is none',
    text: 'BEGIN:VCALENDAR\nwhat is this\nEND:VCALENDAR',
    says: 'Line 2: “what is this” is no calendar line.',
  },
  {
    what: 'a thirtieth of February',
    text: calendar('UID:1\nDTSTART:19970230T120000Z'),
    says: 'Line 21: “19970230T120000Z” is no date and no time.',
  },
  {
    what: 'a rule that says nothing',
    text: calendar('UID:1\nDTSTART:19970228T120000Z\nRRULE:FREQ=OFTEN'),
    says: 'Line 22: The rule “FREQ=OFTEN” cannot be followed',
  },
  {
    what: 'a zone that nobody knows',
    text: calendar('UID:1\nDTSTART;TZID=Nowhere:19970228T120000'),
    says: 'Line 21: The file does not say what the time zone “Nowhere” is.',
  },
  {
    what: 'an event without a name',
    text: calendar('DTSTART:19970228T120000Z'),
    says: 'Line 19: The event that begins here has no UID.',
  },
  { what: 'another kind of file', text: '%PDF-1.7', says: 'Line 1: “%PDF-1.7” is no calendar' },
];

test.each(damagedFiles)('$what is refused with its line', ({ text, says }) => {
  expect(() => starts(text)).toThrow(says);
});
