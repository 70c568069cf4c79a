/** Runs the bowlworth command as a person would: a process and a data folder of its own. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** What a command said and how it ended. */
export interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A service that runs in a process of its own. */
export interface Serving {
  readonly url: string;
  readonly process: ChildProcess;
  /** Sends a signal and waits for the end. */
  stop(signal: NodeJS.Signals): Promise<Said>;
}

const program = join(process.cwd(), 'dist/src/command-line/bowlworth.js');

/** A data folder, and the command on it. */
export class CommandLine {
  private readonly started = new Set<ChildProcess>();

  private constructor(readonly folder: string) {}

  static async inNewFolder(): Promise<CommandLine> {
    return new CommandLine(await mkdtemp(join(tmpdir(), 'bowlworth-command-')));
  }

  /** Runs it to its end. */
  async run(...words: string[]): Promise<Said> {
    return ended(this.start(words));
  }

  /** The answer of a command that must not fail. */
  async answer(...words: string[]): Promise<string> {
    const said = await this.run(...words);
    if (said.code !== 0) throw new Error(`bowlworth ${words.join(' ')}: ${said.err}`);
    return said.out.trim();
  }

  /** Starts the service and waits until it says where it listens. */
  async serve(environment: Record<string, string> = {}): Promise<Serving> {
    const started = this.start(['serve', '--json'], environment);
    const end = ended(started);
    const url = await Promise.race([
      end.then((said) => Promise.reject(new Error(said.err))),
      new Promise<string>((done) => {
        let text = '';
        started.stdout?.on('data', (more: Buffer) => {
          text += more.toString();
          if (text.trim().endsWith('}')) done((JSON.parse(text) as { url: string }).url);
        });
      }),
    ]);
    return {
      url,
      process: started,
      stop: (signal) => {
        started.kill(signal);
        return end;
      },
    };
  }

  /** Stops what a failed test left running, and removes the folder. */
  async remove(): Promise<void> {
    const left = [...this.started].filter((child) => child.exitCode === null);
    const ends = left.map((child) => once(child, 'close'));
    for (const child of left) child.kill('SIGINT');
    await Promise.all(ends);
    await rm(this.folder, { recursive: true, force: true });
  }

  private start(words: readonly string[], environment: Record<string, string> = {}): ChildProcess {
    const { PATH = '' } = process.env;
    const own = { PATH, BOWLWORTH_DATA: this.folder, PORT: '0', BOWLWORTH_DEMO: 'off' };
    const child = spawn(process.execPath, [program, ...words], {
      env: { ...own, ...environment },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.started.add(child);
    child.once('close', () => this.started.delete(child));
    return child;
  }
}

async function ended(child: ChildProcess): Promise<Said> {
  const said = { out: '', err: '' };
  child.stdout?.on('data', (text: Buffer) => (said.out += text.toString()));
  child.stderr?.on('data', (text: Buffer) => (said.err += text.toString()));
  const [code] = (await once(child, 'close')) as [number | null];
  return { code, ...said };
}
