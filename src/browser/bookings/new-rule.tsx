/** A rule typed by hand, with what it would find in the diary while it is typed. */
import { useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { matchWords } from '../../../shared/booking-words.js';
import type { BookingRuleView, DiaryWordsView } from '../../../shared/contract/bookings.js';
import type { ServiceView } from '../../../shared/contract/catalogue.js';
import { MeaningKey } from './meaning-key.js';
import { texts } from './texts.js';

const { words } = texts;
const mostShown = 6;

/** The fields; what was typed stays where the rule is refused. */
export function NewRule(props: {
  menu: readonly ServiceView[];
  all: readonly DiaryWordsView[];
  onRule: (rule: BookingRuleView) => Promise<boolean>;
}) {
  const [text, setText] = useState('');
  const typed = text.trim();
  const found =
    typed === ''
      ? []
      : props.all.filter(({ what }) => {
          return matchWords(what, [{ words: typed, serviceIds: [] }]).found.length > 0;
        });
  const keep = (serviceIds: string[]) =>
    void props.onRule({ words: typed, serviceIds }).then((isKept) => {
      if (isKept) setText('');
    });
  return (
    <>
      <h3>{words.newTitle}</h3>
      <div className="side-by-side">
        <TextField className="react-aria-TextField" value={text} onChange={setText}>
          <Label>{words.lookFor}</Label>
          <Input />
        </TextField>
        {typed !== '' && (
          <>
            <MeaningKey
              label={words.means(typed)}
              menu={props.menu}
              onChoose={(id) => keep([id])}
            />
            <Button className="key" aria-label={words.notAVisitOf(typed)} onPress={() => keep([])}>
              {words.notAVisit}
            </Button>
          </>
        )}
      </div>
      <p role="status" className="quiet">
        {typed === ''
          ? ''
          : found.length === 0
            ? words.findsNone
            : `${words.finds}: ${found
                .slice(0, mostShown)
                .map(({ what, bookings }) => `“${what}” (${bookings})`)
                .join(', ')}`}
      </p>
    </>
  );
}
