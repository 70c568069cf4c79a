/** Physical bowls with their empty weight and mark. */
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { VesselView } from '../../../shared/contract/catalogue.js';
import { Clock } from '../../platform/clock.js';
import { Once } from '../../platform/database/once.js';
import { CatalogueList } from './catalogue-list.service.js';
import type { NewVesselRequest, VesselChangesRequest } from './catalogue.requests.js';
import { vesselView } from './catalogue.views.js';
import { givenFields } from './given-fields.js';
import type { NewRow } from './records.queries.js';
import { VesselEntity } from './vessel.entity.js';

@Injectable()
export class VesselsService extends CatalogueList<
  VesselEntity,
  NewVesselRequest,
  VesselChangesRequest,
  VesselView
> {
  constructor(
    @Inject(DataSource) dataSource: DataSource,
    @Inject(Once) once: Once,
    @Inject(Clock) clock: Clock,
  ) {
    super({ dataSource, once, clock }, VesselEntity, 'vessel');
  }

  protected override rowOf({ label, mark, tare, brush }: NewVesselRequest) {
    return { label, mark: mark ?? null, tare_g: tare.value, brush_g: brush?.value ?? null };
  }

  protected override changesOf(request: VesselChangesRequest): Partial<VesselEntity> {
    const { label, mark, tare, brush } = request;
    const brush_g = brush === null ? null : brush?.value;
    return givenFields({ label, mark, tare_g: tare?.value, brush_g });
  }

  protected override view(vessel: NewRow<VesselEntity>): VesselView {
    return vesselView(vessel);
  }
}
