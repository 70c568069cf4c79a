/** What was answered before a visit's first bowl, here and elsewhere, and its cautions. */
import { useQuery } from '@tanstack/react-query';
import { uuidv7 } from 'uuidv7';
import { byGravity, type Caution } from '../../../shared/cautions.js';
import type {
  AskedQuestion,
  SensitivityWord,
  VisitCautionsView,
} from '../../../shared/contract/visits.js';
import { cautionsOfVisit, sensitivityAsSaid } from '../../../shared/visit-cautions.js';
import { send } from '../api/calls.js';
import { outbox } from '../api/outbox.js';
import { handsNow } from '../people/session.js';
import { deviceNow, today } from '../shell/clock.js';
import { store, useStore, type Store } from '../shell/store.js';
import { visitTexts } from './texts.js';

/** Answers as they were tapped. */
export interface Answers {
  readonly scalpSound?: boolean;
  readonly earlierReaction?: boolean;
  readonly hennaOrMetal?: boolean;
  readonly sixteenOrOlder?: boolean;
  readonly sensitivityTest?: SensitivityWord;
}

interface Kept {
  readonly day: string;
  readonly byVisit: Readonly<Record<string, Answers>>;
  /** Codes of interrupting cautions that were noted in a visit. */
  readonly noted: Readonly<Record<string, readonly string[]>>;
}

const place = 'bowlworth.answers';
const kept: Store<Kept> = store(readKept());
const none: Answers = {};

/** They stay in this tab, and for today. */
function readKept(): Kept {
  const nothing = { day: today(), byVisit: {}, noted: {} };
  try {
    const read = JSON.parse(sessionStorage.getItem(place) ?? 'null') as Kept | null;
    return read?.day === nothing.day ? read : nothing;
  } catch {
    return nothing;
  }
}

/** What was tapped on this device for a visit. */
export function useAnswers(visitId: string): Answers {
  return useStore(kept).byVisit[visitId] ?? none;
}

/** Keeps an answer and tells the service of it. */
export function answerQuestion(visitId: string, part: Answers): void {
  const { byVisit } = kept.get();
  keep({ byVisit: { ...byVisit, [visitId]: { ...byVisit[visitId], ...part } } });
  const id = uuidv7();
  const hands = handsNow();
  const body = { id, ...part, at: deviceNow(), ...(hands ? { askedBy: hands.id } : {}) };
  const path = `/visits/${visitId}/answers`;
  void outbox.post({ id, method: 'POST', path, body, what: visitTexts.asked.booking });
}

/** Interrupting cautions that were noted in a visit on this device: they do not interrupt again. */
export function notedInVisit(visitId: string): readonly string[] {
  return kept.get().noted[visitId] ?? [];
}

/** An interrupting caution was noted in a visit. */
export function noteInVisit(visitId: string, code: string): void {
  const { noted } = kept.get();
  keep({ noted: { ...noted, [visitId]: [...notedInVisit(visitId), code] } });
}

function keep(part: Partial<Kept>): void {
  const next = { ...kept.get(), ...part, day: today() };
  sessionStorage.setItem(place, JSON.stringify(next));
  kept.set(next);
}

/** Which question a caution answers to. */
const questionOf: Readonly<Record<string, AskedQuestion>> = {
  scalp_not_sound: 'scalpSound',
  earlier_reaction: 'earlierReaction',
  henna_or_metal: 'hennaOrMetal',
  under_sixteen: 'sixteenOrOlder',
  sensitivity_test_missing: 'sensitivityTest',
};

/** A visit's cautions for a line of colour, and which questions have an answer. */
export interface AskedVisit {
  readonly asked: ReadonlySet<AskedQuestion>;
  readonly cautions: readonly Pick<Caution, 'code' | 'text' | 'manner'>[];
}

/** What the service knows, and over it what was tapped here and may not be sent yet. */
export function useAskedVisit(visitId: string | null, line?: string): AskedVisit {
  const { data } = useQuery({
    queryKey: ['visit-cautions', visitId, line],
    enabled: visitId !== null,
    staleTime: 15_000,
    queryFn: async () => {
      const query = line === undefined ? '' : `?line=${encodeURIComponent(line)}`;
      return (await send('GET', `/visits/${visitId}/cautions${query}`)) as VisitCautionsView;
    },
  });
  const here = useAnswers(visitId ?? '');
  const tapped = new Set(Object.keys(here) as AskedQuestion[]);
  const own = cautionsOfVisit(
    {
      ...here,
      sensitivityTest: here.sensitivityTest && sensitivityAsSaid(here.sensitivityTest, line),
    },
    line,
  );
  const isTapped = ({ code }: { code: string }) => {
    const question = questionOf[code];
    return question !== undefined && tapped.has(question);
  };
  const theirs = (data?.cautions ?? []) as Caution[];
  return {
    asked: new Set([...(data?.asked ?? []), ...tapped]),
    cautions: byGravity([
      ...theirs.filter((each) => !isTapped(each)),
      ...own.filter((each) => isTapped(each)),
    ]),
  };
}

/** Whether the grams mixed, with so many more, go past what was quoted; false where not known. */
export function usePastTheQuote(visitId: string | null, moreGrams: string): boolean {
  const { data } = useQuery({
    queryKey: ['past-the-quote', visitId, moreGrams],
    enabled: visitId !== null,
    staleTime: 15_000,
    queryFn: async () => {
      const path = `/visits/${visitId}/past-the-quote?more=${moreGrams}`;
      return (await send('GET', path)) as { past: boolean };
    },
  });
  return data?.past ?? false;
}
