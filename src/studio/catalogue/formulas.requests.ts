/** What may be sent about saved formulas. */
import { Field, Flag, Id, Text, Whole } from '../../platform/http/fields.js';
import { PostingRequest } from '../../platform/http/posting-request.js';
import { CatalogueListRequest } from './catalogue.requests.js';
import { planSchema, readFormulaPlan, type FormulaPlan } from './formula-plan.js';

const absent = { optional: true, nullable: true } as const;

class FormulaDetails extends PostingRequest {
  @Text({ ...absent, max: 60, example: 'front' })
  purpose?: string | null;

  @Field(readFormulaPlan, planSchema, { ...absent, description: 'The same as it was poured.' })
  poured?: FormulaPlan | null;

  @Whole({ ...absent, max: 600 })
  minutesOnHair?: number | null;

  @Text({ ...absent, max: 300, description: 'One line for the next visit.' })
  nextTime?: string | null;
}

export class NewFormulaRequest extends FormulaDetails {
  @Id({ ...absent, description: 'The studio’s own unless told.' })
  clientId?: string | null;

  @Text({ max: 120, example: 'Sea glass, roots' })
  name!: string;

  @Field(readFormulaPlan, planSchema)
  plan!: FormulaPlan;
}

export class FormulaChangesRequest extends FormulaDetails {
  @Text({ optional: true, max: 120 })
  name?: string;

  @Field(readFormulaPlan, planSchema, { optional: true })
  plan?: FormulaPlan;

  @Flag({ optional: true, description: 'False brings it back.' })
  retired?: boolean;
}

export class FormulaListRequest extends CatalogueListRequest {
  @Id({ optional: true, description: 'Of this client; the studio’s own unless told.' })
  clientId?: string;
}
