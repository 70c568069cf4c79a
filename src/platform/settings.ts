/** What the environment says about how to run: read once, checked, never looked up again. */

/** How this process is to run; see README for the variables. */
export interface Settings {
  readonly port: number;
  readonly host: string;
  /** Where https of our own making listens; `beside`: at a fixed distance from `port`. */
  readonly httpsPort: number | 'beside' | 'off';
  /** Undefined: on every address, so that tablets reach it. */
  readonly httpsHost: string | undefined;
  readonly dataFolder: string;
  /** A PostgreSQL server to use instead of the embedded one. */
  readonly databaseUrl: string | undefined;
  /** Load the demo studio into an empty database. */
  readonly demo: boolean;
  readonly tlsCertificateFile: string | undefined;
  readonly tlsKeyFile: string | undefined;
  readonly logLevel: LogLevel;
}

const logLevels = ['silent', 'error', 'warn', 'info'] as const;
export type LogLevel = (typeof logLevels)[number];

/** Injection token of the settings. */
export const SETTINGS = Symbol('settings');

/**
 * Reads the settings from environment variables.
 * @throws Error with a sentence that names the variable and what it takes
 */
export function readSettings(env: NodeJS.ProcessEnv): Settings {
  const text = (name: string) => env[name]?.trim() || undefined;
  const settings: Settings = {
    port: readPort('PORT', text('PORT') ?? '4180'),
    host: text('BOWLWORTH_HOST') ?? '127.0.0.1',
    httpsPort: readHttpsPort(text('BOWLWORTH_HTTPS_PORT')),
    httpsHost: text('BOWLWORTH_HOST'),
    dataFolder: text('BOWLWORTH_DATA') ?? 'data',
    databaseUrl: readDatabaseUrl(text('DATABASE_URL')),
    demo: text('BOWLWORTH_DEMO')?.toLowerCase() !== 'off',
    tlsCertificateFile: text('BOWLWORTH_TLS_CERT'),
    tlsKeyFile: text('BOWLWORTH_TLS_KEY'),
    logLevel: readLogLevel(text('BOWLWORTH_LOG')),
  };
  if ((settings.tlsCertificateFile === undefined) !== (settings.tlsKeyFile === undefined)) {
    throw new Error('BOWLWORTH_TLS_CERT and BOWLWORTH_TLS_KEY go together. Set both or neither.');
  }
  return settings;
}

function readPort(name: string, text: string): number {
  const port = /^\d{1,5}$/.test(text) ? Number.parseInt(text, 10) : -1;
  if (port >= 0 && port <= 65535) return port;
  throw new Error(`${name} is "${text}". Give a number from 0 (any free port) to 65535.`);
}

/** https listens so far from PORT, unless BOWLWORTH_HTTPS_PORT says otherwise. */
const httpsDistance = 363;

/** The port of https beside this one: 4543 beside 4180; any free one (0) beside any free one. */
export function httpsPortBeside(port: number): number {
  if (port === 0) return 0;
  return port + httpsDistance <= 65535 ? port + httpsDistance : port - httpsDistance;
}

function readHttpsPort(text: string | undefined): Settings['httpsPort'] {
  if (text === undefined) return 'beside';
  return text.toLowerCase() === 'off' ? 'off' : readPort('BOWLWORTH_HTTPS_PORT', text);
}

function readDatabaseUrl(text: string | undefined): string | undefined {
  if (text === undefined || /^postgres(ql)?:\/\//.test(text)) return text;
  throw new Error('DATABASE_URL must begin with postgres:// or postgresql://.');
}

function readLogLevel(text = 'warn'): LogLevel {
  const level = logLevels.find((known) => known === text);
  if (level) return level;
  throw new Error(`BOWLWORTH_LOG is "${text}". Give one of ${logLevels.join(', ')}.`);
}
