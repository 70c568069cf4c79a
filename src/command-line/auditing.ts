/** Audits one studio, or all there are. */
import type { AuditView } from '../../shared/contract/stock.js';
import { asOwner, studiosOf } from '../platform/database/owner.js';
import type { Service } from '../service.js';
import { AuditService } from '../studio/stock/audit.service.js';
import { chooseStudio } from './inside.js';
import { progress } from './terminal.js';

/** The audit of each studio in turn. */
export async function auditStudios(
  service: Service,
  words: { readonly studio?: string; readonly since?: number },
): Promise<(AuditView & { studio: string })[]> {
  const studios =
    words.studio === undefined
      ? await asOwner(service.database.target, studiosOf)
      : [await chooseStudio(service, words.studio)];
  const auditor = service.app.get(AuditService, { strict: false });
  const reports = [];
  for (const { id, name } of studios) {
    progress(`Auditing ${name} …`);
    reports.push({ studio: name, ...(await auditor.audit(id, words.since)) });
  }
  return reports;
}
