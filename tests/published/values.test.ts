/** Published values against the functions of shared/, and the check's own power to fail. */
import { execFile } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { decimal, type Decimal } from '../../shared/decimal.js';
import { matches } from '../../src/command-line/check-values/matching.js';
import { checkRows } from '../../src/command-line/check-values/report.js';
import { topics } from '../../src/command-line/check-values/topics.js';
import { readRows, type ValueRow } from '../../src/command-line/check-values/value-row.js';

const ownCopy = join('tests', 'published', 'values');
const rows = readRows(ownCopy);

/** Topics that must be answered; a value of any of them may be fed to the check. */
const mustBeSupported = [
  'units',
  'peroxide',
  'peroxide-limit',
  'alligation-alternate',
  'alligation-medial',
  'rounding',
  'allocation',
  'iso4217',
  'cash-rounding',
  'tax-rounding',
  'sales-tax',
  'discount',
  'markup',
  'margin',
  'costing-fifo-perpetual',
  'costing-moving-average',
];

describe.each(checkRows(rows, topics))('$topic', (report) => {
  test('every value comes out as published', () => {
    expect(report.failed).toEqual([]);
    if (mustBeSupported.includes(report.topic)) expect(report.notYetSupported).toEqual([]);
    expect(report.passed).toBeGreaterThan(0);
  });
});

test('every topic that must be supported has values here', () => {
  const present = new Set(rows.map((row) => row.topic));
  expect(mustBeSupported.filter((topic) => !present.has(topic))).toEqual([]);
});

test('every row names its source and says whether it was read there', () => {
  expect(rows.filter((row) => row.source === '' || row.seen === undefined)).toEqual([]);
  expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
});

/** The row with each expected figure moved by ten units of its last printed place. */
function damaged(row: ValueRow): ValueRow {
  const moved = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.length === 0 ? ['x'] : value.map(moved);
    if (value === null) return 'x';
    if (typeof value === 'number') return value + 1;
    if (typeof value === 'boolean') return !value;
    if (typeof value !== 'string') return value;
    if (!/^-?\d+(\.\d+)?$/.test(value)) return 'another';
    const exact: Decimal = decimal(value);
    const places = value.split('.')[1]?.length ?? 0;
    // Ten, since "as printed" allows one, and a dilution's printed inputs a few more.
    return exact.plus(decimal('10').pow(-places).times(10)).toFixed(places);
  };
  const fields = Object.entries(row.expected).map(([name, value]) => [name, moved(value)]);
  return { ...row, expected: Object.fromEntries(fields) as Record<string, unknown> };
}

test('every single value, moved by a little or renamed, fails', () => {
  const passed = rows.filter((row) => {
    const [report] = checkRows([damaged(row)], topics);
    return report !== undefined && report.passed > 0;
  });
  expect(passed.map((row) => row.id)).toEqual([]);
});

test.each([
  { expected: '7253', got: '7252.9412', same: true },
  { expected: '0.03', got: '0.025', same: true },
  { expected: '0.03', got: '0.02499', same: false },
  { expected: 18, got: '17.64', same: false },
  { expected: 18, got: '18', same: true },
  { expected: '3.03', got: '3.0351', same: false },
  { expected: '3.03', got: '3.0351', same: true, tolerance: 'as printed' },
  { expected: '20.23', got: '20.2347', same: true, tolerance: 0.01 },
  { expected: '20.23', got: '20.2447', same: false, tolerance: 0.01 },
])('$got counts as $expected: $same ($tolerance)', ({ expected, got, same, tolerance }) => {
  expect(matches(expected, decimal(got), tolerance)).toBe(same);
});

const run = promisify(execFile);
const command = join('dist', 'src', 'command-line', 'check-values.js');

interface Ran {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

async function check(...words: string[]): Promise<Ran> {
  try {
    return { code: 0, ...(await run(process.execPath, [command, ...words])) };
  } catch (error) {
    return error as Ran;
  }
}

describe('the command', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'values-'));
    cpSync(ownCopy, folder, { recursive: true });
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  test('takes the project’s own copy, counts by topic, exits 0', async () => {
    const { code, stdout } = await check();
    expect(code).toBe(0);
    expect(stdout).toMatch(/^allocation: \d+ passed, 0 failed, 0 not yet supported$/m);
  });

  test('exits 1 on one damaged value, and names it with both figures', async () => {
    const file = join(folder, 'money.json');
    const content = readFileSync(file, 'utf8');
    expect(content).toContain('"71.30"');
    writeFileSync(file, content.replace('"71.30"', '"71.31"'));
    const { code, stdout } = await check(folder);
    expect(code).toBe(1);
    expect(stdout).toContain('FAILED MK-01: expected price "71.31"; got price "71.3"');
  });

  test('a topic it does not know is counted, not failed', async () => {
    const row = { id: 'X-1', topic: 'tides', inputs: {}, expected: { high: '1' }, source: 'none' };
    writeFileSync(join(folder, 'more.json'), JSON.stringify([row]));
    const { code, stdout } = await check(folder);
    expect(code).toBe(0);
    expect(stdout).toContain('tides: 0 passed, 0 failed, 1 not yet supported');
  });

  test.each([
    { name: 'a folder that is not there', words: ['no-such-folder'], code: 1 },
    { name: 'an option that is not there', words: ['--loud'], code: 2 },
  ])('$name exits $code with a sentence', async ({ words, code }) => {
    const ran = await check(...words);
    expect(ran.code).toBe(code);
    expect(ran.stderr).not.toBe('');
  });
});
