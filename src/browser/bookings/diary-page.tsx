/** The diary: read over from its file, its words told, closed days. */
import { useState } from 'react';
import { Choice } from '../shell/choice.js';
import { ClosedDays } from './closed-days.js';
import { DiaryWords } from './diary-words.js';
import { ReadDiary } from './read-diary.js';
import { texts } from './texts.js';
import './bookings.css';

const parts = ['read', 'words', 'closed'] as const;
type Part = (typeof parts)[number];

/** The page. */
export default function DiaryPage() {
  const [part, go] = useState<Part>('read');
  return (
    <section className="page" aria-labelledby="diary-title">
      <h1 id="diary-title">{texts[part].title}</h1>
      <Choice
        label={texts.diary}
        value={part}
        options={parts.map((value) => ({ value, text: texts.parts[value] }))}
        onChoose={go}
      />
      {part === 'read' && <ReadDiary onWords={() => go('words')} />}
      {part === 'words' && <DiaryWords />}
      {part === 'closed' && <ClosedDays />}
    </section>
  );
}
