/** Where the agent's readings go: to everybody who listens; a newcomer hears how the scale is. */
import {
  heardAlso,
  newcomerHears,
  nothingHeard,
  type LastHeard,
} from '../../../shared/scales/last-heard.js';
import { writeTold, type Told } from '../../../shared/scales/wire.js';

/** Takes one message; `passing`: the next one says more. */
export type Hearing = (message: string, passing: boolean) => void;

export class ReadingHub {
  private last: LastHeard = { ...nothingHeard, trouble: 'unplugged' };
  private readonly listeners = new Set<Hearing>();

  constructor(private readonly nowMs: () => number = () => performance.now()) {}

  /** Passes on what the scale said. */
  tell(told: Told): void {
    this.last = heardAlso(this.last, told, this.nowMs());
    const message = writeTold(told);
    const passing = told.type === 'reading' || told.type === 'damage';
    for (const listener of [...this.listeners]) listener(message, passing);
  }

  /** Begins to listen: first how the scale is, then what it says. Returns how to stop. */
  join(listener: Hearing): () => void {
    for (const told of newcomerHears(this.last, this.nowMs())) listener(writeTold(told), false);
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
}
