/** USB HID weighing page: reports into readings, and the stream of them. */
import { canonical } from '../../../shared/decimal.js';
import { hiddevWeight, hidFields, readHidReport } from '../../../shared/scales/hid-report.js';
import { heard, hex, inShort } from '../../support/scale-bytes.js';

interface Row {
  bytes: string;
  means: string;
  source: string;
}

const tables = 'USB-IF HID Point of Sale Usage Tables v1.02, Weighing Devices page 0x8D';
const library = 'node-hid issue 286 (2018)';

test.each<Row>([
  { bytes: '03 04 0C FE 11 03', means: '7.85 pound stable', source: library },
  { bytes: '03 04 0B FF 6F 04', means: '113.5 ounce stable', source: `${library}, bytes` },
  { bytes: '00 03 04 0B FF 31 00', means: '4.9 ounce stable', source: 'docs.rs weighty, bytes' },
  { bytes: '04 02 00 14 00', means: '20 g stable', source: 'USB scale interface specs, 2017' },
  { bytes: '02 0C FF 00 00', means: '0 pound stable at zero', source: tables },
  // status 2 with a load on: the weight counts, and it is not at zero
  { bytes: '02 0C FF 30 00', means: '4.8 pound stable', source: tables },
  { bytes: '03 02 FF D2 04', means: '123.4 g moving', source: tables },
  { bytes: '04 02 FF FF FF', means: '6553.5 g stable', source: `${tables}, limit` },
  { bytes: '04 02 02 0C 00', means: '1200 g stable', source: `${tables}, exponent 2` },
  { bytes: '04 02 80 01 00', means: `0.${'0'.repeat(127)}1 g stable`, source: 'exponent -128' },
  { bytes: '01 02 FF D2 04', means: 'fault', source: tables },
  { bytes: '05 02 FF D2 04', means: 'under', source: tables },
  { bytes: '06 02 FF D2 04', means: 'over', source: tables },
  { bytes: '07 02 FF D2 04', means: 'needs_calibration', source: tables },
  { bytes: '08 02 FF D2 04', means: 'needs_zero', source: tables },
  { bytes: '03 04 02 FF D2 04 00 00', means: '123.4 g stable', source: 'padded to 8 bytes' },
  { bytes: '04 05 FF D2 04', means: '123.4 tael stable', source: tables },
  { bytes: '09 02 FF D2 04', means: 'damage unknown_status', source: tables },
  { bytes: '00 02 FF D2 04', means: 'damage unknown_status', source: tables },
  { bytes: '04 00 FF D2 04', means: 'damage unknown_unit', source: tables },
  { bytes: '04 0D FF D2 04', means: 'damage unknown_unit', source: tables },
  { bytes: '04 02 7F D2 04', means: 'damage implausible', source: 'exponent 127' },
  { bytes: '04 02 FF D2', means: 'damage wrong_length', source: 'cut' },
  { bytes: '07 04 02 FF D2 04', means: 'damage wrong_length', source: 'another report id' },
  { bytes: '03 04 02 FF D2 04 09', means: 'damage wrong_length', source: 'bytes behind it' },
])('$bytes is $means ($source)', ({ bytes, means }) => {
  expect(inShort(readHidReport(hex(bytes)))).toBe(means);
});

// hand: 113.5 oz x 28.349523125 g; 7.85 lb x 453.59237 g (UCUM 2.2); last place 0.1 oz, 0.01 lb
test.each([
  ['03 04 0B FF 6F 04', '3217.6708746875', '2.8349523125'],
  ['03 04 0C FE 11 03', '3560.7001045', '4.5359237'],
  ['04 02 FF D2 04', '123.4', '0.1'],
  ['04 03 FD D2 04', '1234', '1'],
])('%s is %s g, its last place %s g', (bytes, grams, interval) => {
  const reading = readHidReport(hex(bytes));
  if (reading.kind !== 'reading') throw new Error('no reading');
  expect(canonical(reading.grams!)).toBe(grams);
  expect(canonical(reading.intervalGrams!)).toBe(interval);
});

test.each([5, 9])('unit code %i has no one size, so no grams are made up', (unit) => {
  const reading = readHidReport(Uint8Array.of(4, unit, 0, 10, 0));
  expect(reading).toMatchObject({ kind: 'reading', status: 'weight' });
  expect(reading).not.toHaveProperty('grams');
});

test('hiddev events carry exponent and weight as 32 bits (usbscale, published answers)', () => {
  expect(canonical(hiddevWeight(0xffffffff, 0x11b))).toBe('28.3');
  expect(canonical(hiddevWeight(0xffffffff, 0x22f))).toBe('55.9');
});

test('five bytes begin with the status, six with the id', () => {
  expect(hidFields(hex('03 02 FF D2 04'))?.layout).toBe('status_first');
  expect(hidFields(hex('03 03 02 FF D2 04'))?.layout).toBe('id_first');
});

test('the first report after an open is dropped: it may be the weighing before', () => {
  const found = heard('hid', [hex('04 02 FF D2 04'), hex('03 02 FF D3 04')]);
  expect(found.map(inShort)).toEqual(['damage first_report', '123.5 g moving']);
});

test('a cut report is never read as one of a shorter form', () => {
  // the first five bytes of "03 04 02 FF D2 04" read as status 3, carat, 10^2, 53759
  const whole = hex('03 04 02 FF D2 04');
  const found = heard('hid', [whole, whole, whole.subarray(0, 5), whole]);
  expect(found.map(inShort)).toEqual([
    'damage first_report',
    '123.4 g stable',
    'damage wrong_length',
    '123.4 g stable',
  ]);
});

test('a cut first report does not set the length for good', () => {
  const whole = hex('03 04 02 FF D2 04');
  const found = heard('hid', [whole.subarray(0, 5), whole, whole]);
  expect(found.map(inShort)).toEqual([
    'damage first_report',
    'damage wrong_length',
    '123.4 g stable',
  ]);
});
