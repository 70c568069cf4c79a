/** What comes between while weighing: lifts, residue, zero key, sleep, units, presses, damage. */
import { decimal } from '../../shared/decimal.js';
import { AtTheScale } from '../support/at-the-scale.js';

/** 62 g of powder of 90 are in the bowl of 120 g. */
function with62(): AtTheScale {
  const bench = new AtTheScale().withBowl().due('powder', '90').moves('150').stands('182');
  bench.happened();
  return bench;
}

describe('cut off in the middle of a pour, and begun anew', () => {
  const known = { tares: { bowl: decimal('120') }, contentsGrams: decimal('30') };

  /** 30 g of powder are known; of 60 g developer 25 had been poured when the page went away. */
  function begunAnew(cutOff: boolean): AtTheScale {
    const bench = new AtTheScale().useBowl({ ...known, cutOff }).due('developer', '60');
    bench.happened();
    return bench.moves('100', '170').stands('175');
  }

  test('what is more than was known belongs to the pour that was under way', () => {
    const bench = begunAnew(true);
    expect(bench.happened()).toEqual(['tared 120 bowl', 'resumed 55']);
    expect(bench.figures()).toBe('55 g, 35 to go');
    bench.moves('190').stands('210');
    // 120 + 30 + 60
    bench.moves('150', '0').stands('0');
    expect(bench.happened()[0]).toBe('moved_on stable developer 60 stable');
  });

  test('of a bowl that was put aside in good order it is told, and is no pour', () => {
    const bench = begunAnew(false);
    expect(bench.happened()).toEqual(['tared 120 bowl', 'came_back 55 25']);
    expect(bench.figures()).toBe('55 g, 60 to go');
  });
});

describe('lift and set down', () => {
  test('what was there is kept, and the pour goes on', () => {
    const bench = with62().moves('90', '12', '-3').stands('0');
    expect(bench.happened()).toEqual(['lifted 62']);
    expect(bench.figures()).toBe('62 g, 28 to go');
    bench.moves('100', '190').stands('183', 300);
    expect(bench.happened()).toEqual(['resumed 63']);
    bench.moves('190').stands('210', 100);
    // 62 before, 63 when it came back: the interval between is no pour
    expect(bench.happened()).toEqual(['moved_on stable powder 89 stable']);
  });

  test('a pour inside its band is moved on from by the lift', () => {
    const bench = new AtTheScale().withBowl().due('powder', '90').moves('150').stands('208');
    expect(bench.happened()).toEqual([]);
    bench.moves('90', '0').stands('0');
    expect(bench.happened()).toEqual([
      'moved_on lift powder 88 stable',
      'poured powder 88 stable',
      'lifted 88',
    ]);
  });

  test('lifted before it stood still, the weight is kept and marked so', () => {
    const bench = new AtTheScale().withBowl().due('powder', '90');
    bench.moves('140', '160', '180', '195', '205', '209', '208', '209', '60', '0');
    expect(bench.happened()).toEqual([
      'moved_on lift powder 89 unstable',
      'poured powder 89 unstable',
      'lifted 89',
    ]);
  });

  test('"that\'s all" while it is lifted books what was kept', () => {
    const bench = with62().moves('0').stands('0').send({ type: 'tap' });
    expect(bench.happened()).toEqual([
      'lifted 62',
      'moved_on tap powder 62 stable',
      'fell_short powder 28',
      'poured powder 62 stable',
    ]);
  });

  test('what came in while it was away is the pour that is due', () => {
    const bench = with62().moves('0').stands('0').moves('150').stands('194', 300);
    expect(bench.happened()).toEqual(['lifted 62', 'came_back 74 12']);
    expect(bench.figures()).toBe('74 g, 16 to go');
  });

  test('what went out while it was away is told and is no pour', () => {
    const bench = with62().moves('0').stands('0').moves('150').stands('160', 300);
    expect(bench.happened()).toEqual(['lifted 62', 'came_back 40 -22']);
    expect(bench.figures()).toBe('40 g, 28 to go');
  });
});

describe('what is left on the plate', () => {
  test('it is to be wiped, and wiping is seen', () => {
    const bench = with62().moves('2').stands('2', 300).moves('1').stands('0', 300);
    expect(bench.happened()).toEqual(['lifted 62', 'residue 2', 'plate_clear']);
  });

  test('"leave it" takes it off every weight, until it is wiped after all', () => {
    const bench = with62().moves('4').stands('4', 300).send({ type: 'leave_residue' });
    bench.stands('4', 300).moves('150').stands('182', 300);
    expect(bench.happened()).toEqual(['lifted 62', 'residue 4', 'came_back 58 -4']);
    bench.moves('4').stands('4', 300).stands('0', 300).stands('0', 300);
    expect(bench.happened()).toEqual(['lifted 58', 'plate_clear']);
  });

  test('an empty bowl 2 g above its tare: rinsed?', () => {
    const bench = new AtTheScale().useBowl({ tares: { vessel: decimal('120') } });
    bench.stands('122', 300);
    expect(bench.happened()).toEqual(['connected', 'tared 120 vessel', 'rinsed_question 2']);
  });
});

test('the tare of the request counts before the bowl’s, that before the vessel’s', () => {
  const given = { vessel: decimal('118'), bowl: decimal('119'), request: decimal('120') };
  const bench = new AtTheScale().useBowl({ tares: given }).stands('120', 300);
  expect(bench.happened()).toEqual(['connected', 'tared 120 request']);
});

test('a bowl set down without a word is asked about, then taken', () => {
  const bench = new AtTheScale().moves('80').stands('120', 300);
  expect(bench.happened()).toEqual(['connected', 'set_down 120']);
  bench.useBowl();
  expect(bench.happened()).toEqual(['tared 120 set_down']);
});

describe('the zero key', () => {
  test('a jump to exactly zero is asked about; carrying on keeps the 62 g', () => {
    const bench = with62().stands('0', 200);
    expect(bench.happened()).toEqual(['zero_pressed 62']);
    expect(bench.figures()).toBe('62 g, 28 to go');
    bench.send({ type: 'carry_on' }).moves('10').stands('28', 200);
    expect(bench.happened()).toEqual(['carried_on 62', 'moved_on stable powder 90 stable']);
  });

  test('carried on, then lifted: the scale says under zero and means an empty plate', () => {
    const bench = with62().stands('0', 200).send({ type: 'carry_on' }).says('under', 500);
    expect(bench.happened()).toEqual(['zero_pressed 62', 'carried_on 62', 'lifted 62']);
    bench.moves('-60').stands('1', 300);
    expect(bench.happened()).toEqual(['resumed 63']);
  });

  test('a scale that shows negative weights answers the question by itself', () => {
    const bench = with62().stands('0', 200).stands('-182', 300);
    expect(bench.happened()).toEqual(['zero_pressed 62', 'carried_on 62', 'lifted 62']);
  });

  test('it was lifted after all', () => {
    const bench = with62().stands('0', 200).send({ type: 'it_was_lifted' });
    bench.moves('100').stands('182', 200);
    expect(bench.happened()).toEqual(['zero_pressed 62', 'resumed 62']);
  });

  test('the old weight comes back: the question has answered itself', () => {
    const bench = with62().stands('0', 200).moves('100').stands('182', 200);
    expect(bench.happened()).toEqual(['zero_pressed 62', 'resumed 62']);
  });

  test('a lift passes through other weights and is not asked about', () => {
    expect(with62().moves('90').stands('0', 300).happened()).toEqual(['lifted 62']);
  });
});

describe('a press with a knuckle', () => {
  test('100 g or more for half a second to two, and back: yes', () => {
    const bench = with62().moves('290', '300', '302', '301', '300', '300').stands('182', 300);
    expect(bench.happened()).toEqual(['knuckle']);
    expect(bench.figures()).toBe('62 g, 28 to go');
  });

  test('it works with two readings a second', () => {
    const bench = new AtTheScale(undefined, 500);
    bench.useBowl().stands('120', 1000);
    bench.happened();
    bench.moves('280').stands('120', 500);
    expect(bench.happened()).toEqual(['knuckle']);
  });

  test('a stable press moves nothing on', () => {
    const bench = with62().stands('300', 800).stands('182', 300);
    expect(bench.happened()).toEqual(['knuckle']);
  });

  test('shorter is a bump', () => {
    expect(with62().moves('290', '240').stands('182', 300).happened()).toEqual(['bumped']);
  });

  test('less than 100 g is no press', () => {
    const bench = with62().moves('270', '275', '277', '276', '270', '275').stands('182', 300);
    expect(bench.happened()).toEqual([]);
  });

  test('longer is a load', () => {
    const bench = with62().stands('300', 2100);
    expect(bench.happened()).toEqual([]);
    bench.stands('300', 300);
    expect(bench.happened()).toEqual(['moved_on stable powder 180 stable', 'overshot powder 90']);
  });
});

describe('the scale itself', () => {
  test('too heavy, then as before', () => {
    const bench = with62().says('over', 500).stands('182', 300);
    expect(bench.happened()).toEqual(['too_heavy', 'reading_again']);
    expect(bench.figures()).toBe('62 g, 28 to go');
  });

  test.each([
    ['fault', 'fault'],
    ['needs_calibration', 'needs_calibration'],
    ['needs_zero', 'needs_zero'],
    ['not_ready', 'not_ready'],
  ] as const)('%s is told once', (status, word) => {
    expect(with62().says(status, 500).happened()).toEqual([word]);
  });

  test('under zero is told when it stays there for a second', () => {
    const bench = new AtTheScale().stands('0').says('under', 800);
    expect(bench.happened()).toEqual(['connected']);
    bench.says('under', 300);
    expect(bench.happened()).toEqual(['under_zero']);
    expect(bench.stands('0', 200).happened()).toEqual(['reading_again']);
  });

  test('a bare plate three intervals below zero is under zero too', () => {
    const bench = new AtTheScale().stands('-3', 300);
    expect(bench.happened()).toEqual(['connected', 'under_zero']);
    expect(bench.stands('0', 300).happened()).toEqual(['reading_again']);
  });

  test('asleep after five seconds of silence; the grams are kept', () => {
    const bench = with62().wait(4900);
    expect(bench.happened()).toEqual([]);
    bench.wait(100).wait(5000);
    expect(bench.happened()).toEqual(['asleep 62']);
    expect(bench.figures()).toBe('62 g, 28 to go');
    expect(bench.stands('182', 300).happened()).toEqual(['reading_again']);
    expect(bench.figures()).toBe('62 g, 28 to go');
  });

  test('a scale that wakes at zero with the bowl on is asked about', () => {
    const bench = with62().wait(6000).stands('0', 200);
    expect(bench.happened()).toEqual(['asleep 62', 'reading_again', 'zero_pressed 62']);
  });

  test('lost and connected again', () => {
    const bench = with62().send({ type: 'lost' }).send({ type: 'lost' });
    expect(bench.happened()).toEqual(['lost 62']);
    bench.send({ type: 'connected' }).stands('182', 300);
    expect(bench.happened()).toEqual(['connected']);
    expect(bench.figures()).toBe('62 g, 28 to go');
  });

  test('another unit is converted, and its interval counts', () => {
    const bench = with62();
    const ounces = { value: decimal('6.42'), unit: 'ounce', stable: true } as const;
    bench.shows('182.0039384625', { ...ounces, intervalGrams: decimal('0.28349523125') });
    expect(bench.happened()).toEqual(['unit_changed ounce']);
    expect(bench.state.intervalGrams.toFixed()).toBe('0.28349523125');
    expect(bench.stands('182', 300).happened()).toEqual(['unit_changed g']);
  });

  test('the interval set up for the scale counts when it is the coarser', () => {
    const bench = new AtTheScale({
      stability: { windowMs: 800, readings: 5 },
      intervalGrams: decimal('2'),
      silenceMs: 5000,
    });
    bench.stands('0');
    expect(bench.state.intervalGrams.toFixed()).toBe('2');
  });

  test('pieces are no weight', () => {
    const pieces = {
      kind: 'reading',
      status: 'weight',
      value: decimal('12'),
      unit: 'piece',
      stable: true,
      mode: 'unknown',
      carriedBy: '12 PC',
    } as const;
    const bench = with62().send({ type: 'reading', reading: pieces });
    expect(bench.happened()).toEqual(['not_a_mass piece']);
    expect(bench.figures()).toBe('62 g, 28 to go');
  });

  test('ten damaged lines in a row are a garbled line; one is nothing', () => {
    const bench = with62().send({ type: 'damage' }).stands('182', 300);
    expect(bench.happened()).toEqual([]);
    for (let each = 0; each < 12; each += 1) bench.send({ type: 'damage' });
    expect(bench.happened()).toEqual(['garbled']);
    expect(bench.stands('182', 300).happened()).toEqual(['reading_again']);
  });
});
