/** Several statements in one message to the server: one journey, one answer, one wake-up. */
import pg, { type ClientBase, type QueryConfig, type QueryResult } from 'pg';
import { columnTypes } from './data-source.js';

/** What `pg` calls on the query that it waits for, and what a query keeps of the server. */
interface Wire {
  readonly stream: { cork(): void; uncork(): void; destroy(): void };
  readonly parsedStatements: Record<string, string>;
  readonly submittedNamedStatements: Record<string, string>;
  sync(): void;
}
interface Part {
  readonly name?: string;
  readonly text?: string;
  submit(connection: never): Error | null;
  handleRowDescription(message: unknown): void;
  handleDataRow(message: unknown): void;
  handleCommandComplete(message: unknown, connection: unknown): void;
  handleReadyForQuery(connection: unknown): void;
  handleError(error: Error, connection: unknown): void;
}

/**
 * Statements of the extended protocol with one Sync behind the last. The server answers all at
 * once; where one fails, those after it are not run, a COMMIT among them neither, and all fail
 * with its error.
 */
export class StatementBatch {
  private readonly parts: Part[] = [];

  get isEmpty(): boolean {
    return this.parts.length === 0;
  }

  /** Adds a statement; its result comes after `sendBy`. */
  add<Row extends pg.QueryResultRow>(statement: QueryConfig): Promise<QueryResult<Row>> {
    return new Promise((resolve, reject) => {
      const config = { ...statement, types: columnTypes, queryMode: 'extended' };
      const query = new pg.Query<Row>(config, (error, result) => {
        if (error) reject(traced(error));
        else resolve(result);
      });
      this.parts.push(query as unknown as Part);
    });
  }

  /** Sends what was added; nothing is added after it. */
  sendBy(client: ClientBase): void {
    if (!this.isEmpty) client.query(new SentBatch(this.parts));
  }
}

/** As `pg` sees it: one query, whose messages go to the statement that they belong to. */
class SentBatch extends pg.Query {
  private at = 0;

  constructor(private readonly parts: readonly Part[]) {
    super('');
    // pg writes these; a name that is parsed is that of the statement at work
    Object.defineProperty(this, 'name', { get: () => this.parts[this.at]?.name });
    Object.defineProperty(this, 'text', { get: () => this.parts[this.at]?.text });
    Object.assign(this, { callback: () => undefined });
    Object.assign(this, {
      submit: (connection: Wire) => this.send(connection),
      handleRowDescription: (message: unknown) => this.part?.handleRowDescription(message),
      handleDataRow: (message: unknown) => this.part?.handleDataRow(message),
      handleCommandComplete: (message: unknown, connection: unknown) => {
        this.part?.handleCommandComplete(message, connection);
        this.at += 1;
      },
      handleEmptyQuery: () => (this.at += 1),
      handleReadyForQuery: (connection: unknown) => this.done(this.parts.length, connection),
      handleError: (error: Error, connection: Wire) => this.fail(error, connection),
    });
  }

  private get part(): Part | undefined {
    return this.parts[this.at];
  }

  private send(connection: Wire): Error | null {
    // each statement believes that it sends a Sync of its own
    const withoutSync = Object.create(connection, { sync: { value: () => undefined } }) as never;
    connection.stream.cork();
    const refused = this.parts.find((part) => part.submit(withoutSync) !== null);
    connection.sync();
    connection.stream.uncork();
    if (!refused) return null;
    connection.stream.destroy(); // half of it is on its way: nothing on this line can be trusted
    return new Error('A statement could not be sent.');
  }

  private done(upTo: number, connection: unknown): void {
    for (const part of this.parts.slice(0, upTo)) part.handleReadyForQuery(connection);
  }

  private fail(error: Error, connection: Wire): void {
    this.done(this.at, connection);
    this.part?.handleError(error, connection);
    for (const part of this.parts.slice(this.at)) {
      // sent, and never parsed: the next one to name it has to send it again
      if (part.name) delete connection.submittedNamedStatements[part.name];
    }
    // nothing behind it was run, for the same reason
    for (const part of this.parts.slice(this.at + 1)) part.handleError(error, connection);
  }
}

/** The error with the stack of who asked, not of the socket that answered. */
function traced(error: Error): Error {
  Error.captureStackTrace(error);
  return error;
}
