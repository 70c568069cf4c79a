/** Recomputes what must always hold; the capability that keeps the ledger provides it. */
import type { AuditView } from '../../shared/contract/audit.js';

export abstract class Auditor {
  /** @param since only movements recorded after this number, where a check can be cut so */
  abstract audit(studioId: string, since?: string): Promise<AuditView>;
}
