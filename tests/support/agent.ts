/** Runs bowlworth bench-agent in a process of its own. */
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';

const program = join(process.cwd(), 'dist/src/command-line/bowlworth.js');

export class Agent {
  /** What it said to the person who set it up. */
  said = '';
  private constructor(
    private readonly child: ChildProcess,
    /** "ws://127.0.0.1:40123" */
    readonly door: string,
  ) {
    child.stderr?.on('data', (text: Buffer) => (this.said += text.toString()));
  }

  /** Starts it and waits until it says where it listens; on a door of its own, any free port. */
  static async start(words: readonly string[], token = ''): Promise<Agent> {
    const { PATH = '' } = process.env;
    const all = [program, 'bench-agent', '--door', '0', '--json', ...words];
    const child = spawn(process.execPath, all, {
      env: { PATH, BOWLWORTH_TOKEN: token },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    for await (const text of child.stdout.iterator({ destroyOnReturn: false })) {
      out += (text as Buffer).toString();
      if (out.trim().endsWith('}')) {
        return new Agent(child, (JSON.parse(out) as { door: string }).door);
      }
    }
    throw new Error(`The agent did not start: ${out}`);
  }

  /** Waits until it has said something that fits. */
  async until(fits: RegExp): Promise<void> {
    while (!fits.test(this.said)) {
      if (this.child.exitCode !== null) throw new Error(`The agent ended: ${this.said}`);
      await once(this.child.stderr!, 'data');
    }
  }

  /** Stops it as Ctrl-C does. @returns its exit code */
  async stop(): Promise<number | null> {
    if (this.child.exitCode !== null) return this.child.exitCode;
    const end = once(this.child, 'close');
    this.child.kill('SIGINT');
    const [code] = (await end) as [number | null];
    return code;
  }
}
