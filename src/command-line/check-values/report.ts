/** Running rows of published values and counting, topic by topic, what came of them. */
import { Problem } from '../../../shared/problems/problem.js';
import { matches, shown } from './matching.js';
import { NotYetSupported, type Topic } from './topic.js';
import type { ValueRow } from './value-row.js';

export interface Failure {
  readonly id: string;
  readonly expected: string;
  readonly got: string;
}

export interface Waiting {
  readonly id: string;
  readonly why: string;
}

/** What came of the rows of one topic. */
export interface TopicReport {
  readonly topic: string;
  readonly passed: number;
  readonly failed: readonly Failure[];
  readonly notYetSupported: readonly Waiting[];
}

type Outcome = { passed: true } | { failure: Failure } | { waiting: Waiting };

/** Answers every row by its topic, in the order in which topics appear. */
export function checkRows(rows: readonly ValueRow[], topics: readonly Topic[]): TopicReport[] {
  const byName = new Map(topics.map((topic) => [topic.name, topic]));
  const names = [...new Set(rows.map((row) => row.topic))];
  return names.map((name) => {
    const topic = byName.get(name);
    const outcomes = rows
      .filter((row) => row.topic === name)
      .map((row) =>
        topic ? check(row, topic) : { waiting: { id: row.id, why: 'no such topic yet' } },
      );
    return {
      topic: name,
      passed: outcomes.filter((outcome) => 'passed' in outcome).length,
      failed: outcomes.flatMap((outcome) => ('failure' in outcome ? [outcome.failure] : [])),
      notYetSupported: outcomes.flatMap((each) => ('waiting' in each ? [each.waiting] : [])),
    };
  });
}

function check(row: ValueRow, topic: Topic): Outcome {
  try {
    const answer = topic.answer(row);
    const fields = Object.keys(row.expected);
    const wrong = fields.filter(
      (field) =>
        field in answer && !matches(row.expected[field], answer[field] ?? null, row.tolerance),
    );
    if (wrong.length > 0) {
      return { failure: failureOf(row, wrong, (field) => shown(answer[field])) };
    }
    const open = fields.filter((field) => !(field in answer));
    if (open.length > 0)
      return { waiting: { id: row.id, why: `no answer for ${open.join(', ')}` } };
    return { passed: true };
  } catch (error) {
    if (error instanceof NotYetSupported) return { waiting: { id: row.id, why: error.message } };
    if (error instanceof Problem && 'error' in row.expected) return { passed: true };
    const why = error instanceof Problem ? `${error.code}: ${error.message}` : String(error);
    return { failure: failureOf(row, Object.keys(row.expected), () => why) };
  }
}

function failureOf(
  row: ValueRow,
  fields: readonly string[],
  gotOf: (field: string) => string,
): Failure {
  const expected = fields.map((field) => `${field} ${JSON.stringify(row.expected[field])}`);
  const got = [...new Set(fields.map((field) => `${field} ${gotOf(field)}`))];
  return { id: row.id, expected: expected.join(', '), got: got.join(', ') };
}
