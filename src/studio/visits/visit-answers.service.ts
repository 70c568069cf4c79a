/** What was answered before a visit's first bowl, and the cautions that follow from it. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { uuidv7 } from 'uuidv7';
import type { SensitivityResult } from '../../../shared/contract/clients.js';
import type {
  AskedQuestion,
  SensitivityWord,
  VisitAnswered,
  VisitCautionsView,
} from '../../../shared/contract/visits.js';
import { decimal } from '../../../shared/decimal.js';
import {
  cautionsOfVisit,
  sensitivityAsSaid,
  type SensitivityTest,
} from '../../../shared/visit-cautions.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { forStudio, type Transaction } from '../../platform/database/transaction.js';
import type { Caller } from '../../platform/http/rights.js';
import { checkPeople } from './visit-checks.js';
import { PUT_ANSWERS, READ_ANSWERS } from './visit-answers.queries.js';
import type { VisitAnswersRequest } from './visit-answers.requests.js';
import { VisitsService } from './visits.service.js';

interface AnswersRow {
  readonly scalpSound: boolean | null;
  readonly earlierReaction: boolean | null;
  readonly hennaOrMetal: boolean | null;
  readonly sixteenOrOlder: boolean | null;
  readonly sensitivityTest: SensitivityWord | null;
  readonly test: {
    readonly line: string;
    readonly result: SensitivityResult | null;
    readonly hoursAgo: string;
  } | null;
}

@Injectable()
export class VisitAnswersService {
  constructor(
    @Inject(DataSource) private readonly dataSource: DataSource,
    @Inject(Clock) private readonly clock: Clock,
    @Inject(VisitsService) private readonly visits: VisitsService,
  ) {}

  /**
   * What the answers call for, the gravest first; a test that is noted of the client counts where
   * nothing else was said of it.
   * @throws Problem `not_found`; a bench finds today's visits only
   */
  async cautions(caller: Caller, visitId: string, line?: string): Promise<VisitCautionsView> {
    const now = this.clock.now();
    await this.visits.show(visitId, caller, now);
    const reader = forStudio(this.dataSource, caller.studioId);
    const [row] = await reader.query<AnswersRow & Record<string, unknown>>(READ_ANSWERS, [
      ...[visitId, line ?? null, now],
    ]);
    if (!row) throw new Problem('not_found', { what: 'visit', id: visitId });
    const { scalpSound, earlierReaction, hennaOrMetal, sixteenOrOlder } = row;
    const told = { scalpSound, earlierReaction, hennaOrMetal, sixteenOrOlder };
    const sensitivityTest = testOf(row, line);
    const answers = Object.fromEntries(
      Object.entries(told).map(([name, answer]) => [name, answer ?? undefined]),
    );
    const cautions = cautionsOfVisit({ ...answers, sensitivityTest }, line);
    const known = { ...told, sensitivityTest: row.sensitivityTest ?? row.test };
    return {
      asked: (Object.keys(known) as AskedQuestion[]).filter((name) => known[name] !== null),
      cautions: cautions.map(({ code, text, manner }) => ({ code, text, manner })),
    };
  }

  /** Keeps answers; one left out keeps the word before. @throws Problem `not_found` */
  async answer(
    tx: Transaction,
    visitId: string,
    request: VisitAnswersRequest,
    by: { caller: Caller; at: string; recordedAt: string },
  ): Promise<VisitAnswered> {
    await this.visits.read(tx, visitId, by.recordedAt);
    const { id = uuidv7(), askedBy } = request;
    if (askedBy !== undefined) await checkPeople(tx, [askedBy], '/askedBy');
    await tx.query(PUT_ANSWERS, [
      id,
      visitId,
      request.scalpSound ?? null,
      request.earlierReaction ?? null,
      request.hennaOrMetal ?? null,
      request.sixteenOrOlder ?? null,
      request.sensitivityTest ?? null,
      askedBy ?? by.caller.personId ?? null,
      by.at,
      by.recordedAt,
    ]);
    return { id, visitId };
  }
}

/** What was said at the chair, else the client's own test of this line, or the newest. */
function testOf({ sensitivityTest, test }: AnswersRow, line?: string): SensitivityTest | undefined {
  if (sensitivityTest !== null && (sensitivityTest !== 'none' || !test)) {
    return sensitivityAsSaid(sensitivityTest, line);
  }
  if (!test) return undefined;
  const hoursAgo = decimal(test.hoursAgo);
  const read = test.result === null ? {} : { reaction: test.result === 'reaction' };
  return { line: test.line, hoursAgo, ...read };
}
