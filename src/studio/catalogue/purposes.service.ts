/** What bowls are for, in the studio's own words. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { PurposeView } from '../../../shared/contract/catalogue.js';
import { Problem } from '../../../shared/problems/problem.js';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { CatalogueList } from './catalogue-list.service.js';
import type { NewPurposeRequest, PurposeChangesRequest } from './catalogue.requests.js';
import { purposeView } from './catalogue.views.js';
import { PurposeEntity } from './purpose.entity.js';
import { givenFields } from './given-fields.js';
import type { NewRow } from './records.queries.js';

@Injectable()
export class PurposesService extends CatalogueList<
  PurposeEntity,
  NewPurposeRequest,
  PurposeChangesRequest,
  PurposeView
> {
  constructor(
    @Inject(DataSource) dataSource: DataSource,
    @Inject(Once) once: Once,
    @Inject(Clock) clock: Clock,
  ) {
    super({ dataSource, once, clock }, PurposeEntity, 'purpose');
  }

  protected override rowOf({ name }: NewPurposeRequest) {
    return { name };
  }

  protected override changesOf({ name }: PurposeChangesRequest): Partial<PurposeEntity> {
    return givenFields({ name });
  }

  protected override refusals({ name = '' }: Partial<PurposeEntity>) {
    const taken = () => new Problem('name_in_use', { what: 'purpose', name }, '/name');
    return { purpose_studio_id_name_key: taken };
  }

  protected override view(purpose: NewRow<PurposeEntity>): PurposeView {
    return purposeView(purpose);
  }
}
