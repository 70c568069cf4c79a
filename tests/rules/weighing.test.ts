/** Whole pours as they happen on the plate, with what must be told of them, worked out by hand. */
import { decimal } from '../../shared/decimal.js';
import { usualSettings } from '../../shared/weighing/state.js';
import { AtTheScale } from '../support/at-the-scale.js';

describe('a bowl from empty plate to the last pour', () => {
  test('it tares by itself, moves on by itself, and every pour is told once', () => {
    const bench = new AtTheScale();
    expect(bench.happened()).toEqual(['connected']);
    bench.stands('0').useBowl().due('powder', '30');
    bench.moves('60', '140', '118').stands('120');
    expect(bench.happened()).toEqual(['tared 120 set_down']);
    expect(bench.figures()).toBe('0 g, 30 to go');
    bench.moves('128', '140');
    expect(bench.figures()).toBe('20 g, 10 to go');
    bench.moves('148').stands('150', 300);
    expect(bench.happened()).toEqual(['moved_on stable powder 30 stable']);
    bench.due('developer', '60', { startsClock: true });
    bench.stands('150', 3000);
    expect(bench.happened()).toEqual(['poured powder 30 stable']);
    bench.moves('170', '205').stands('209', 3200);
    expect(bench.happened()).toEqual([
      'moved_on stable developer 59 stable',
      'poured developer 59 stable',
    ]);
    expect(bench.figures()).toBe('89 g, - to go');
  });

  test('one interval short is there, two are not', () => {
    const bench = new AtTheScale().withBowl().due('powder', '30');
    bench.moves('130').stands('148');
    expect(bench.happened()).toEqual([]);
    bench.stands('149', 100);
    expect(bench.happened()).toEqual(['moved_on stable powder 29 stable']);
  });

  test('an unstable weight above the target moves nothing', () => {
    const bench = new AtTheScale().withBowl().due('powder', '30');
    bench.moves('140', '150', '152', '153', '155');
    expect(bench.happened()).toEqual([]);
    expect(bench.figures()).toBe('35 g, -5 to go');
  });

  test('without a flag of the scale, 800 ms within one interval are stable', () => {
    const bench = new AtTheScale(usualSettings, 100, false);
    bench.useBowl().stands('0', 900).moves('80').stands('120', 800);
    expect(bench.happened()).toEqual(['connected']);
    bench.stands('120', 100);
    expect(bench.happened()).toEqual(['tared 120 set_down']);
    bench.due('powder', '30').moves('135').stands('150', 400).stands('151', 400);
    expect(bench.happened()).toEqual([]);
    bench.stands('150', 100);
    expect(bench.happened()).toEqual(['moved_on stable powder 30 stable']);
  });

  test('at two readings a second, five of them are needed', () => {
    const bench = new AtTheScale(usualSettings, 500, false);
    bench.useBowl().stands('0', 2500).stands('120', 2000);
    expect(bench.happened()).toEqual(['connected']);
    bench.stands('120', 500);
    expect(bench.happened()).toEqual(['tared 120 set_down']);
  });
});

describe('overshoot and short', () => {
  test('over the band: moved on, and how much over', () => {
    // band of 30 g: the larger of 2 intervals and 0.6 g = 2 g
    const bench = new AtTheScale().withBowl().due('powder', '30').moves('140').stands('155');
    expect(bench.happened()).toEqual(
      ['moved_on stable powder 35 stable', 'overshot powder 5', 'poured powder 35 stable'].slice(
        0,
        2,
      ),
    );
  });

  test('inside the band it is not called an overshoot', () => {
    const bench = new AtTheScale().withBowl().due('powder', '30').moves('140').stands('152', 300);
    expect(bench.happened()).toEqual(['moved_on stable powder 32 stable']);
  });

  test('"that\'s all" on a short pour moves on and says how much is missing', () => {
    const bench = new AtTheScale().withBowl().due('powder', '30').moves('130').stands('141');
    bench.send({ type: 'tap' });
    expect(bench.happened()).toEqual(['moved_on tap powder 21 stable', 'fell_short powder 9']);
  });

  test('a tap while it moves waits until it stands still, at most two seconds', () => {
    const bench = new AtTheScale().withBowl().due('powder', '30').moves('130', '135');
    bench.send({ type: 'tap' });
    expect(bench.happened()).toEqual(['waiting_to_settle powder']);
    bench.moves('138').stands('141', 100);
    expect(bench.happened()).toEqual(['moved_on tap powder 21 stable', 'fell_short powder 9']);
    bench.wait(4000).due('next', '30').moves('150', '151').send({ type: 'tap' });
    bench.moves(...Array.from({ length: 20 }, (_, each) => (each % 2 ? '152' : '155')));
    expect(bench.happened()).toEqual([
      'poured powder 21 stable',
      'waiting_to_settle next',
      'moved_on tap next 11 unstable',
      'fell_short next 19',
    ]);
  });

  test('a tap on nothing is no pour', () => {
    const bench = new AtTheScale().withBowl().due('powder', '30').stands('120', 200);
    bench.send({ type: 'tap' });
    expect(bench.happened()).toEqual(['nothing_poured powder']);
  });

  test('below ten intervals the scale is too coarse', () => {
    const bench = new AtTheScale().withBowl().due('shade', '9').due('shade', '10');
    expect(bench.happened()).toEqual(['too_light shade']);
  });
});

describe('drips', () => {
  const after30 = () => {
    const bench = new AtTheScale().withBowl().due('powder', '30').moves('140').stands('150', 100);
    bench.happened();
    return bench.due('developer', '60');
  };

  test('up to 2 g within three seconds belong to the pour before', () => {
    const bench = after30().moves('151').stands('152', 3000);
    expect(bench.happened()).toEqual(['dripped powder 2', 'poured powder 32 stable']);
    expect(bench.figures()).toBe('32 g, 60 to go');
    bench.moves('180').stands('212', 100);
    expect(bench.happened()).toEqual(['moved_on stable developer 60 stable']);
  });

  test('more than 2 g are the next pour, all of them', () => {
    const bench = after30().moves('151', '152', '153');
    expect(bench.happened()).toEqual(['poured powder 30 stable']);
    bench.moves('180').stands('210', 100);
    expect(bench.happened()).toEqual(['moved_on stable developer 60 stable']);
  });

  test('after three seconds it is the next pour', () => {
    const bench = after30().stands('150', 3000).moves('151').stands('152');
    expect(bench.happened()).toEqual(['poured powder 30 stable']);
    expect(bench.figures()).toBe('32 g, 58 to go');
  });

  test('a lift ends the time for drips', () => {
    const bench = after30().stands('152', 500).moves('80', '0');
    expect(bench.happened()).toEqual(['dripped powder 2', 'poured powder 32 stable', 'lifted 32']);
  });

  test('without a reading the time for drips ends too', () => {
    expect(after30().wait(2800).happened()).toEqual([]);
    expect(after30().wait(3000).happened()).toEqual(['poured powder 30 stable']);
  });
});

describe('scooped back and taken out', () => {
  test('before first contact a fall of two seconds is scooped back, and the pour goes on', () => {
    const bench = new AtTheScale().withBowl().due('powder', '90').moves('150').stands('182');
    bench.moves('179').stands('176', 1900);
    expect(bench.happened()).toEqual([]);
    bench.stands('176', 200);
    expect(bench.happened()).toEqual(['scooped_back powder 6']);
    expect(bench.figures()).toBe('56 g, 34 to go');
    // 62 poured, 6 back, 34 more: 96 went in, 90 are there
    bench.moves('190').stands('210', 100);
    expect(bench.happened()).toEqual(['moved_on stable powder 96 stable']);
  });

  test('after an overshoot the fall belongs to the pour before', () => {
    const bench = new AtTheScale().withBowl().due('powder', '30').stands('155', 200);
    bench.stands('155', 3000).due('developer', '60').moves('152').stands('150', 2200);
    expect(bench.happened()).toEqual([
      'moved_on stable powder 35 stable',
      'overshot powder 5',
      'poured powder 35 stable',
      'scooped_back powder 5',
    ]);
    expect(bench.figures()).toBe('30 g, 60 to go');
  });

  test('after first contact it is taken out, never a return', () => {
    const bench = new AtTheScale().withBowl().due('developer', '60', { startsClock: true });
    bench.stands('180', 3200).moves('175').stands('168', 2200);
    expect(bench.happened()).toEqual([
      'moved_on stable developer 60 stable',
      'poured developer 60 stable',
      'taken_out 12',
    ]);
  });

  test('one interval down is no fall', () => {
    const bench = new AtTheScale().withBowl().due('powder', '90').stands('182').stands('181', 4000);
    expect(bench.happened()).toEqual([]);
  });

  test('a spoon that leans on the bowl and goes away leaves nothing', () => {
    const bench = new AtTheScale()
      .withBowl()
      .stands('120')
      .moves('131', '133', '120')
      .stands('120');
    expect(bench.happened()).toEqual([]);
  });

  test('a rise with no pour due is asked about', () => {
    const bench = new AtTheScale().withBowl().moves('130').stands('140');
    expect(bench.happened()).toEqual(['unasked_rise 20']);
  });
});

describe('out of a pack', () => {
  test('the fall of the tub is the pour, lifted or not', () => {
    const bench = new AtTheScale().useBowl({ isPack: true }).moves('300').stands('540');
    bench.happened();
    bench.due('powder', '30').moves('535').stands('528');
    expect(bench.figures()).toBe('528 g, 18 to go');
    bench.moves('200', '0').stands('0').moves('400').stands('511', 100);
    expect(bench.happened()).toEqual(['lifted 528', 'resumed 511']);
    bench.stands('511', 200);
    expect(bench.happened()).toEqual(['moved_on stable powder 29 stable']);
  });

  test('what goes back into the tub makes the pour smaller', () => {
    const bench = new AtTheScale().useBowl({ isPack: true }).stands('540').due('powder', '30');
    bench.happened();
    bench.stands('520').stands('525');
    expect(bench.figures()).toBe('525 g, 15 to go');
    expect(bench.happened()).toEqual([]);
  });
});

test('what is left is weighed when it stands still, gross and net', () => {
  const bench = new AtTheScale();
  bench.useBowl({ tares: { bowl: decimal('120') }, contentsGrams: decimal('90'), touched: true });
  bench.send({ type: 'weigh' }).moves('100', '140').stands('134', 300);
  expect(bench.happened()).toEqual([
    'connected',
    'tared 120 bowl',
    'came_back 14 -76',
    'weighed 134 14',
  ]);
});

test('a bowl that is done closes the pour under way', () => {
  const bench = new AtTheScale().withBowl().due('powder', '30').stands('140');
  bench.send({ type: 'bowl_done' });
  expect(bench.happened()).toEqual([
    'moved_on bowl_done powder 20 stable',
    'fell_short powder 10',
    'poured powder 20 stable',
  ]);
  expect(bench.state.plate).toBe('unidentified');
  bench.moves('80', '0').stands('0');
  expect(bench.state.plate).toBe('empty');
});
