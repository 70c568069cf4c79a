/** Booked visits, what they use, and the weeks ahead with them: figures worked out by hand. */
import { outlookOf } from '../../../shared/ordering/booking-outlook.js';
import {
  serviceOutlooks,
  type BookedVisit,
  type DoneVisits,
  type ServiceOutlook,
} from '../../../shared/ordering/booked-visits.js';
import {
  daysAhead,
  extraOver,
  openDaysUse,
  spreadOver,
} from '../../../shared/ordering/days-ahead.js';
import { usePerVisit, type VisitUse } from '../../../shared/ordering/use-per-visit.js';
import { dayAfter } from '../../../shared/calendar.js';

const today = '2026-03-02';

function booking(day: string, more: Partial<BookedVisit> = {}): BookedVisit {
  const known = { bookedOn: '2025-06-01', calledOffOn: null, came: false };
  return { day, serviceIds: ['lights'], ...known, ...more };
}

function done(day: string, visits = 1, serviceId = 'lights'): DoneVisits {
  return { day, serviceId, visits };
}

function lights(of: {
  bookings: readonly BookedVisit[];
  done?: readonly DoneVisits[];
  openShare?: (from: string) => number;
  isFresh?: boolean;
}): ServiceOutlook {
  const found = serviceOutlooks({
    ...{ today, done: [], openShare: () => 1, isFresh: true },
    ...of,
  }).get('lights');
  if (!found) throw new Error('There are no lights.');
  return found;
}

describe('visits to come', () => {
  test('bookings are counted by weeks from today on, without those called off or here', () => {
    const bookings = [
      ...[booking('2026-03-02'), booking('2026-03-08'), booking('2026-03-09')],
      booking('2026-03-10', { calledOffOn: '2026-02-20' }),
      booking('2026-03-02', { came: true }),
      booking('2026-03-01'),
    ];
    expect(lights({ bookings }).booked.slice(0, 3)).toEqual([2, 1, 0]);
  });

  test('of a new studio nine in ten bookings are kept', () => {
    const [week] = lights({ bookings: [booking('2026-03-03'), booking('2026-03-04')] }).expected;
    // mean 2 x 0.9; variance 2 x 0.9 x 0.1
    expect(week?.mean).toBeCloseTo(1.8, 12);
    expect(week?.variance).toBeCloseTo(0.18, 12);
  });

  test('the share that is kept is learned from days on which visits began from bookings', () => {
    const bookings = [
      ...Array.from({ length: 6 }, () => booking('2026-02-10', { came: true })),
      ...Array.from({ length: 3 }, () => booking('2026-02-10')),
      booking('2026-03-03'),
    ];
    const found = lights({ bookings, done: [done('2026-02-10', 9)] });
    // studio: (6 + 9 x 0.9)/(9 + 9) = 0.783333; service: (6 + 9 x 0.783333)/18 = 0.725
    expect(found.keep).toBeCloseTo(0.725, 12);
  });

  test('where nobody began visits from bookings, visits of that day and service keep them', () => {
    const bookings = [booking('2026-02-10'), booking('2026-02-10'), booking('2026-02-11')];
    const found = lights({ bookings, done: [done('2026-02-10', 1), done('2026-02-11', 5)] });
    // 2 of 3: studio (2 + 8.1)/12 = 0.8416667; service (2 + 9 x 0.8416667)/12 = 0.7979167
    expect(found.keep).toBeCloseTo(0.7979166667, 9);
  });

  test('without a known past the rest of a usual week is added', () => {
    const weeks = [1, 2, 3, 4].map((week) => done(dayAfter(today, -7 * week), 4));
    const bookings = [booking('2026-03-03', { bookedOn: '2026-03-01' })];
    const [first, second] = lights({ bookings, done: weeks }).expected;
    // a usual week has 4; one is booked and kept at 0.9: 0.9 + (4 - 0.9); the next has 4
    expect(first?.mean).toBeCloseTo(4, 12);
    expect(second?.mean).toBeCloseTo(4, 12);
  });

  test('closed days take their part of what is not booked yet, and nothing of what is', () => {
    const weeks = [1, 2, 3, 4].map((week) => done(dayAfter(today, -7 * week), 4));
    const bookings = [booking('2026-03-03', { bookedOn: '2026-03-01' })];
    const [first] = lights({ bookings, done: weeks, openShare: () => 0.5 }).expected;
    expect(first?.mean).toBeCloseTo(0.9 + 3.1 / 2, 12);
  });

  test('a known past teaches what comes in addition at the same distance', () => {
    // Eight weeks with 5 visits each, of which 3 had been booked three weeks before.
    const past = Array.from({ length: 8 }, (_, week) => dayAfter(today, -7 * (week + 1)));
    const bookings = past.flatMap((day) => [
      ...Array.from({ length: 3 }, () => booking(day, { bookedOn: dayAfter(day, -21) })),
      ...Array.from({ length: 2 }, () => booking(day, { bookedOn: dayAfter(day, -1) })),
    ]);
    const ahead = booking('2026-03-10', { bookedOn: '2026-03-01' });
    const found = lights({ bookings: [...bookings, ahead], done: past.map((day) => done(day, 5)) });
    // All 40 were kept: studio (40 + 8.1)/49 = 0.981633; service (40 + 9 x 0.981633)/49.
    const keep = (40 + (9 * 48.1) / 49) / 49;
    expect(found.keep).toBeCloseTo(keep, 12);
    expect(found.past[1]?.map(({ bookedThen }) => bookedThen)).toEqual(Array(8).fill(3));
    // What came in addition a week ahead: 5 - 3 x keep; one is booked: keep + that.
    expect(found.expected[1]?.mean).toBeCloseTo(5 - 2 * keep, 9);
  });

  test('a diary that was read long ago is not taken for what comes in addition', () => {
    const past = Array.from({ length: 8 }, (_, week) => dayAfter(today, -7 * (week + 1)));
    const bookings = past.map((day) => booking(day));
    const found = lights({ bookings, done: past.map((day) => done(day, 5)), isFresh: false });
    expect(found.past.flat()).toEqual([]);
    expect(found.expected[0]?.mean).toBeCloseTo(5, 12);
  });
});

describe('use per visit', () => {
  const visit = (serviceIds: string[], use: number): VisitUse => ({ day: today, serviceIds, use });

  test('a visit for two services is shared out by what each uses alone', () => {
    const visits = [
      ...[visit(['a'], 30), visit(['a'], 30), visit(['b'], 10), visit(['b'], 10)],
      visit(['a', 'b'], 48),
    ];
    const found = usePerVisit(visits, ['a', 'b']);
    // 48 is shared 3 : 1 -> 36 and 12: means (30 + 30 + 36)/3 = 32 and (10 + 10 + 12)/3 = 10.667
    // within: (24 + 2.667)/4 = 6.667 pooled; between: of 32 and 10.667 = 227.556
    // kappa = 6.66667/227.5556 = 0.029297; family mean 128/6 = 21.333
    const kappa = (4 * (12 / 2 + 4 / 6)) / 4 / 227.5555555556;
    expect(found.get('a')?.mean).toBeCloseTo((3 * 32 + kappa * (128 / 6)) / (3 + kappa), 6);
    expect(found.get('a')?.variance).toBeCloseTo(12, 9);
  });

  test('a service that was never done uses what services use on the whole', () => {
    const found = usePerVisit([visit(['a'], 20), visit(['a'], 40), visit(['b'], 60)], ['c']);
    expect(found.get('c')?.mean).toBeCloseTo(40, 12);
  });

  test('without visits nothing is used', () => {
    expect(usePerVisit([], ['a']).get('a')?.mean).toBe(0);
  });
});

describe('the weeks ahead', () => {
  const visits: VisitUse[] = Array.from({ length: 40 }, (_, index) => {
    return { day: dayAfter(today, -7 * (1 + (index % 10))), serviceIds: ['lights'], use: 50 };
  });
  const usual: ServiceOutlook = {
    keep: 0.9,
    booked: [4, ...Array<number>(12).fill(0)],
    expected: [
      { mean: 6, variance: 2 },
      ...Array<{ mean: number; variance: number }>(12).fill({ mean: 4, variance: 2 }),
    ],
    past: Array<[]>(13).fill([]),
  };
  const week = { mean: 250, variance: 2500 };

  test('the diary decides as much as is booked of what is expected', () => {
    const [first, second] = outlookOf(
      { weeks: [week, week] },
      new Map([['lights', usual]]),
      ...([visits, 1, today] as const),
    );
    // visits 6 x 50 = 300; booked 4 x 0.9 x 50 = 180, a share of 0.6: 0.6 x 300 + 0.4 x 250
    expect(first).toMatchObject({ statistical: 250, bookings: 4 });
    expect(first?.bookedUse).toBeCloseTo(180, 9);
    expect(first?.weight).toBeCloseTo(0.6, 9);
    expect(first?.mean).toBeCloseTo(280, 9);
    // variance of the visits: 2 x 50^2 = 5000 (use itself never varied); 0.36 x 5000 + 0.16 x 2500
    expect(first?.spread).toBeCloseTo((0.36 * 5000 + 0.16 * 2500) / 2500, 9);
    expect(second).toMatchObject({ mean: 250, weight: 0, spread: 1, bookings: 0 });
  });

  test('use outside of visits stays as it was forecast', () => {
    const [first] = outlookOf(
      { weeks: [week] },
      new Map([['lights', usual]]),
      ...([visits, 0.4, today] as const),
    );
    // 0.6 x 300 + 0.4 x (0.4 x 250) = 220, not below 180; and 0.6 x 250 beside it
    expect(first?.mean).toBeCloseTo(220 + 150, 9);
  });

  test('more booked than is usual is never forecast away', () => {
    const full = { ...usual, booked: [20], expected: [{ mean: 18, variance: 2 }], past: [[]] };
    const [first] = outlookOf(
      { weeks: [week] },
      new Map([['lights', full]]),
      ...([visits, 1, today] as const),
    );
    // 20 x 0.9 x 50 = 900 although only 0.8 of it is believed without a record
    expect(first?.mean).toBeCloseTo(900, 9);
  });
});

test('once eight weeks are known, their errors decide beside the booked share', () => {
  // Two and four visits by turns, all booked before: the diary never missed, the mean always did.
  const many = (index: number) => (index % 2 === 0 ? 2 : 4);
  const weeks = Array.from({ length: 8 }, (_, index) => index);
  const visits = weeks.flatMap((index) =>
    Array.from({ length: many(index) }, () => {
      return { day: dayAfter(today, -7 * (index + 1)), serviceIds: ['lights'], use: 50 };
    }),
  );
  const seen = weeks
    .map((index) => ({ index, bookedThen: many(index), done: many(index) }))
    .reverse();
  const outlook = { keep: 1, booked: [4], expected: [{ mean: 8, variance: 0 }], past: [seen] };
  const [first] = outlookOf(
    { weeks: [{ mean: 250, variance: 2500 }] },
    new Map([['lights', outlook]]),
    ...([visits, 1, today] as const),
  );
  // errors give all weight to the diary, half of it shrunk to the booked share of 200 of 400:
  // (1 + 0.5)/2 = 0.75; 0.75 x 400 + 0.25 x 250
  expect(first?.weight).toBeCloseTo(0.75, 9);
  expect(first?.mean).toBeCloseTo(362.5, 9);
});

describe('days', () => {
  test('a closed day uses nothing, its month’s other days more', () => {
    const usualDays = Array<number>(60).fill(10);
    const isClosed = (day: string) => day >= '2026-04-06' && day <= '2026-04-10';
    const open = openDaysUse(usualDays, '2026-04-01', isClosed);
    // April has 30 days, 5 closed: 12 on each of the others; May stays
    expect([open[0], open[5], open[9], open[10], open[30]]).toEqual([12, 0, 0, 12, 10]);
    expect(open.slice(0, 30).reduce((a, b) => a + b, 0)).toBeCloseTo(300, 9);
  });

  test('a week’s difference is shared out over its days; parts of days in proportion', () => {
    const usualDays = Array<number>(14).fill(10);
    const known = { bookings: 1, bookedUse: 0, weight: 0.5 };
    const ahead = daysAhead(usualDays, usualDays, [
      { ...known, statistical: 70, mean: 140, spread: 0.5 },
    ]);
    expect(extraOver(ahead, 1)).toBeCloseTo(10, 12);
    expect(extraOver(ahead, 3.5)).toBeCloseTo(35, 12);
    expect(extraOver(ahead, 100)).toBeCloseTo(70, 12);
    expect(spreadOver(ahead, 7)).toBeCloseTo(0.5, 12);
    expect(spreadOver(ahead, 14)).toBeCloseTo(0.75, 12);
    expect(spreadOver(ahead, 28)).toBeCloseTo(0.875, 12);
    expect(spreadOver(undefined, 7)).toBe(1);
  });
});
