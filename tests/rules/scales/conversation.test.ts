/** Finding out how a serial scale speaks, and asking it; times in ms, worked out by hand. */
import { canonical } from '../../../shared/decimal.js';
import {
  askAgainMs,
  askEveryMs,
  conversation,
  heardBytes,
  opened,
  timePassed,
  waysOn,
  waysToTry,
  type Conversation,
  type Turn,
} from '../../../shared/scales/conversation.js';
import { serialLine, serialLineText } from '../../../shared/scales/serial-line.js';
import { bytesOf, inShort } from '../../support/scale-bytes.js';

test.each([
  ['9600 8N1', { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1 }],
  ['2400 7e1', { baudRate: 2400, dataBits: 7, parity: 'even', stopBits: 1 }],
  ['1200 7O2', { baudRate: 1200, dataBits: 7, parity: 'odd', stopBits: 2 }],
  [' 4800 ', { baudRate: 4800, dataBits: 8, parity: 'none', stopBits: 1 }],
  ['fast', undefined],
  ['9600 9N1', undefined],
  ['9600 8X1', undefined],
  ['96', undefined],
])('the line "%s" is read', (text, line) => {
  expect(serialLine(text)).toEqual(line);
});

const line = serialLine('9600 8N1')!;
const lineBelow = serialLine('2400 7E1')!;

/** Plays time and what the scale answers; tells what was said, opened and found, and when. */
function play(
  first: Conversation,
  untilMs: number,
  answers: (said: string, atMs: number) => string,
): string[] {
  const told: string[] = [];
  let state = opened(first, 0);
  const take = (turn: Turn, atMs: number): boolean => {
    state = turn.state;
    if (turn.say !== undefined) told.push(`${atMs} said ${JSON.stringify(turn.say)}`);
    if (turn.reopen) told.push(`${atMs} opened ${serialLineText(turn.reopen)}`);
    for (const found of turn.found) told.push(`${atMs} ${inShort(found)}`);
    if (turn.reopen) state = opened(state, atMs);
    return turn.gaveUp === true;
  };
  for (let atMs = 0; atMs <= untilMs; atMs += 10) {
    const turn = timePassed(state, atMs);
    if (take(turn, atMs)) return [...told, `${atMs} gave up`];
    const bytes = bytesOf(answers(turn.say ?? '', atMs));
    if (bytes.length > 0) take(heardBytes(state, bytes), atMs);
  }
  return told;
}

test('a scale that speaks by itself is heard, and is asked nothing', () => {
  const told = play(conversation(waysToTry), 600, (_, atMs) =>
    atMs % 100 === 0 ? 'ST,GS,+    42.5g\r\n' : '',
  );
  // the first line may be half, and a new width must come twice
  expect(told).toEqual([200, 300, 400, 500, 600].map((atMs) => `${atMs} 42.5 g stable gross`));
});

test('a scale that answers at once is asked every 100 ms', () => {
  const sma = waysOn(line).filter(({ decoder }) => decoder === 'sma');
  const told = play(conversation(sma), 300, (said) => (said ? '\n 1G        62.5g  \r' : ''));
  expect(askEveryMs).toBe(100);
  expect(told).toEqual(
    [0, 100, 200, 300].flatMap((atMs) => [`${atMs} said "\\nW\\r"`, `${atMs} 62.5 g stable gross`]),
  );
});

test('a scale that does not answer is asked again after half a second', () => {
  const [, sma] = waysOn(line);
  expect(askAgainMs).toBe(500);
  expect(play(conversation([sma!]), 1200, () => '')).toEqual([
    '0 said "\\nW\\r"',
    '500 said "\\nW\\r"',
    '1000 said "\\nW\\r"',
  ]);
});

test('silence: every way in its turn, a line opened once, and then it gives up', () => {
  const told = play(conversation([...waysOn(line), ...waysOn(lineBelow)]), 20_000, () => '');
  const turns = told.filter((each) => !each.includes('said'));
  const asked = told.flatMap((each) => /said "(.*)"/.exec(each)?.[1] ?? []);
  // 1500 ms of listening and three questions of 800 ms each are 3900 ms and a tick for each
  expect(turns).toEqual(['3940 opened 2400 7E1', '7880 gave up']);
  const once = ['\\nW\\r', '\\nW\\r', 'W\\r', 'W\\r', 'SI\\r\\n', 'SI\\r\\n'];
  expect(asked).toEqual([...once, ...once]);
});

test('a kept way is not left while the line is silent: the scale may sleep', () => {
  const ways = [...waysOn(lineBelow), ...waysOn(line)];
  expect(play(conversation(ways, true), 60_000, () => '')).toEqual([]);
});

test('a kept way is left when what comes in is none of a scale', () => {
  const ways = [waysOn(lineBelow)[0], ...waysOn(line)];
  const told = play(conversation(ways, true), 3000, (_, atMs) =>
    atMs < 1600 ? '\xff\x13\r\n' : atMs % 100 === 0 ? 'ST,GS,+    42.5g\r\n' : '',
  );
  expect(told[0]).toBe('1510 opened 9600 8N1');
  expect(told.at(-1)).toBe('3000 42.5 g stable gross');
});

test('a way that is right is kept through silence and noise', () => {
  const told = play(conversation(waysToTry), 30_000, (_, atMs) =>
    atMs < 500 || atMs > 29_000 ? 'ST,GS,+    42.5g\r\n' : atMs % 1000 === 0 ? '\x07\x07\r\n' : '',
  );
  expect(told.some((each) => each.includes('opened') || each.includes('said'))).toBe(false);
  expect(told.at(-1)).toBe('30000 42.5 g stable gross');
});

test('a pause of the program itself does not count against a way', () => {
  const ways = waysOn(line);
  // one tick in 10 s, as in a tab that is not looked at: 100 ms of it count
  const after = timePassed(opened(conversation(ways), 0), 10_000);
  expect(after.state.index).toBe(0);
  // 1400 ms are left of the 1500
  const ticks = (untilMs: number) => {
    let { state } = after;
    for (let atMs = 10_100; atMs <= untilMs; atMs += 100) ({ state } = timePassed(state, atMs));
    return state.index;
  };
  expect([ticks(11_400), ticks(11_500)]).toEqual([0, 1]);
});

test('a conversation needs a way', () => {
  expect(() => conversation([])).toThrow(RangeError);
});

test('bytes in any pieces say the same', () => {
  const text = 'ST,GS,+    42.5g\r\nUS,GS,+    43.0g\r\nST,GS,+    43.5g\r\n'.repeat(2);
  const whole = heardBytes(opened(conversation(waysOn(line)), 0), bytesOf(text));
  let state = opened(conversation(waysOn(line)), 0);
  const found = [...text].flatMap((letter) => {
    const turn = heardBytes(state, bytesOf(letter));
    state = turn.state;
    return turn.found;
  });
  const readings = whole.found.filter(({ kind }) => kind === 'reading');
  expect(found).toEqual(readings);
  expect(
    readings.map((each) => (each.kind === 'reading' && each.grams ? canonical(each.grams) : '')),
  ).toEqual(['43.5', '42.5', '43', '43.5']);
});
