/** What a bowl in the hand says to the person: sentences, questions, what comes on the scale. */
import type { Happening } from '../../../shared/weighing/happenings.js';
import { sentenceOf } from '../../../shared/weighing/sentences.js';
import { weight } from '../shell/figures.js';
import { store, type Store } from '../shell/store.js';
import type { InHand, PackStep, Question } from './in-hand.js';

/** Not worth a sentence on the page: they are only acted upon. */
const quiet: ReadonlySet<Happening['type']> = new Set(['poured', 'connected', 'moved_on']);

export class HandTalk {
  readonly shown: Store<InHand> = store<InHand>({ said: '', question: null, pack: null });

  /** Says what happened, with weights to so many places of grams. */
  say(happening: Happening, places: number): void {
    if (quiet.has(happening.type)) return;
    this.show({ said: sentenceOf(happening, (grams) => weight(grams, places)) });
  }

  /** Puts a question; it stands until it is answered. */
  ask(question: Question): void {
    this.show({ question });
  }

  /** A question is answered, or needs no answer. */
  answered(): void {
    this.show({ question: null });
  }

  /** What comes on the scale. */
  turn(pack: PackStep | null): void {
    this.show({ pack });
  }

  private show(part: Partial<InHand>): void {
    this.shown.set({ ...this.shown.get(), ...part });
  }
}
