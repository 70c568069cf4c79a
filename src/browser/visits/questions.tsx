/** What is asked before the first bowl of a visit: a sentence and its keys, each answer kept. */
import type { ReactNode } from 'react';
import { peroxideRule } from '../../../shared/peroxide-rules.js';
import type { AskedQuestion, SensitivityWord } from '../../../shared/contract/visits.js';
import { useStudio } from '../catalogue/catalogue.js';
import { Choice } from '../shell/choice.js';
import { answerQuestion, useAnswers, useAskedVisit } from './answers.js';
import { visitTexts } from './texts.js';

const { asked: words } = visitTexts;
const yesOrNo = ['scalpSound', 'earlierReaction', 'hennaOrMetal', 'sixteenOrOlder'] as const;
type YesOrNo = (typeof yesOrNo)[number];
const tests: readonly SensitivityWord[] = [
  'no reaction',
  'not read',
  'under 48 h',
  'none',
  'reaction',
];

/** The questions, and below them what they call for; under 16 where colour has that label. */
export function Questions(props: { visitId: string; children: ReactNode }) {
  const { visitId, children } = props;
  const country = useStudio()?.country ?? undefined;
  const here = useAnswers(visitId);
  const { asked } = useAskedVisit(visitId);
  const labelled = country !== undefined && peroxideRule(country) !== undefined;
  const questions = yesOrNo.filter((each) => each !== 'sixteenOrOlder' || labelled);
  const standing = (question: AskedQuestion) =>
    asked.has(question) ? words.answered : words.notAsked;
  return (
    <section className="page" aria-labelledby="asked-title">
      <h2 id="asked-title">{words.title}</h2>
      <p className="quiet">{words.how}</p>
      {questions.map((question) => (
        <YesNo
          key={question}
          question={question}
          standing={standing(question)}
          answer={here[question]}
          onAnswer={(answer) => answerQuestion(visitId, { [question]: answer })}
        />
      ))}
      <Choice
        label={`${words.sensitivityTest}: ${standing('sensitivityTest')}`}
        value={here.sensitivityTest}
        options={tests.map((value) => ({ value, text: words.tests[value] }))}
        onChoose={(sensitivityTest) => answerQuestion(visitId, { sensitivityTest })}
      />
      {children}
    </section>
  );
}

/** The first key is the answer that calls for no caution. */
function YesNo(props: {
  question: YesOrNo;
  standing: string;
  answer: boolean | undefined;
  onAnswer: (answer: boolean) => void;
}) {
  const { question, answer } = props;
  const goodIs = question === 'scalpSound' || question === 'sixteenOrOlder';
  const good = {
    scalpSound: words.sound,
    earlierReaction: words.no,
    hennaOrMetal: words.no,
    sixteenOrOlder: words.yes,
  }[question];
  const bad = question === 'sixteenOrOlder' ? words.no : words.yes;
  return (
    <Choice
      label={`${words[question]} ${props.standing}`}
      value={answer === undefined ? undefined : answer === goodIs ? 'good' : 'bad'}
      options={[
        { value: 'good', text: good },
        { value: 'bad', text: bad },
      ]}
      onChoose={(next) => props.onAnswer(next === 'good' ? goodIs : !goodIs)}
    />
  );
}
