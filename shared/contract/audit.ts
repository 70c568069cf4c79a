/** What the audit found, as it travels. */

export interface AuditCheckView {
  /** What must hold, in words. */
  name: string;
  ok: boolean;
  /** How many rows were looked at. */
  rows: number;
  /** The first row that breaks it, with its figures. */
  firstBreach?: Record<string, unknown>;
}

export interface AuditView {
  ok: boolean;
  checks: AuditCheckView[];
}
