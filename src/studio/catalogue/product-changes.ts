/** A change of a product laid over what it is: what may still change, and what must come along. */
import { Problem } from '../../../shared/problems/problem.js';
import { givenFields } from './given-fields.js';
import type { ProductDetail } from './product-rows.js';
import type { ProductRow } from './products.queries.js';
import type { ProductChangesRequest } from './products.requests.js';
import { entryOf, reorderOf } from './products.views.js';

/**
 * The product as it would be entered with the change in it.
 * @param moved true once the ledger has a movement of it
 * @throws Problem `kept_since_it_moved`, `packs_in_old_unit`
 */
export function changedProduct(
  row: ProductRow,
  request: ProductChangesRequest,
  moved: boolean,
): ProductDetail {
  const kept = moved ? keptField(row, request) : undefined;
  if (kept) throw keptSinceItMoved(row, kept);
  const present = entryOf(row);
  if (request.unit && request.unit !== row.unit && row.packs.length > 0 && !request.packs) {
    throw new Problem('packs_in_old_unit', { unit: request.unit }, '/unit');
  }
  const untouched = request.strength === undefined && request.percent === undefined;
  return {
    ...present,
    openLifeDays: row.openLifeDays,
    workingMinutes: row.workingMinutes,
    supplierId: row.supplierId,
    ...withoutOldUnit(request, row),
    ...sentFields(request),
    reorder: { ...reorderOf(row), ...givenFields(request.reorder ?? {}) },
    confirmStrength: request.confirmStrength ?? untouched,
    namedLater: row.namedLater && request.name === undefined,
  };
}

function sentFields(request: ProductChangesRequest) {
  const { name, kind, unit, line, strength, percent, density, gramsPerPiece, dose } = request;
  const { openLifeDays, workingMinutes, scalpCeiling, offScalpCeiling, supplierId, packs } =
    request;
  return givenFields({
    ...{ name, kind, unit, line, strength, percent, density, gramsPerPiece, dose },
    ...{ openLifeDays, workingMinutes, scalpCeiling, offScalpCeiling, supplierId, packs },
  });
}

/** A dose in the old unit does not go along to a new one. */
function withoutOldUnit(request: ProductChangesRequest, row: ProductRow) {
  return request.unit && request.unit !== row.unit ? { dose: null } : {};
}

function keptField(row: ProductRow, request: ProductChangesRequest): 'unit' | 'kind' | undefined {
  return (['unit', 'kind'] as const).find(
    (field) => request[field] !== undefined && request[field] !== row[field],
  );
}

/** What is said where the ledger already counts in the product's unit. */
export function keptSinceItMoved(row: ProductRow, field: 'unit' | 'kind'): Problem {
  return new Problem(
    'kept_since_it_moved',
    { field, product: row.name, kept: row[field] },
    `/${field}`,
  );
}
