/** Products out of a spreadsheet: pasted, columns guessed, every row judged before any is kept. */
import { useState } from 'react';
import {
  Button,
  Checkbox,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Select,
  SelectValue,
  TextArea,
  TextField,
} from 'react-aria-components';
import type { SupplierPrices } from '../../../shared/supplier-prices.js';
import { useStudio } from '../catalogue/catalogue.js';
import { useEntering } from './entering.js';
import { forgetKept, useKept } from './kept.js';
import { columnKinds, judgeRows, readPasted } from './pasted.js';
import type { ColumnKind, Pasted } from './pasted.js';
import { words } from './texts.js';
import type { EnterPart } from './tick-part.js';

const { paste } = words;
const keptAs = 'pasted';
const untaxed: SupplierPrices = { are: 'without tax', taxRate: null };

/** The page of the paste. */
export function PastePart({ known, onEntered, onTyping }: EnterPart) {
  const [text, keep] = useKept(keptAs, '');
  const [chosen, choose] = useState<readonly ColumnKind[]>();
  const [leftOut, leaveOut] = useState<ReadonlySet<number>>(new Set());
  const [trouble, setTrouble] = useState('');
  const enter = useEntering();
  const prices = useStudio()?.supplierPrices ?? untaxed;
  const read = text.trim() === '' ? undefined : readPasted(text);
  const pasted = read && { ...read, columns: chosen ?? read.columns };
  const rows = pasted ? judgeRows(pasted, prices, known) : [];
  const kept = rows.filter((_, at) => !leftOut.has(at));
  const drafts = kept.flatMap(({ draft }) => draft ?? []);
  const bad = kept.length - drafts.length;
  const type = (next: string) => {
    onTyping();
    setTrouble('');
    choose(undefined);
    leaveOut(new Set());
    keep(next);
  };
  const add = async () => {
    const count = await enter(drafts);
    type('');
    forgetKept(keptAs);
    onEntered(count);
  };
  return (
    <>
      <TextField className="react-aria-TextField" value={text} onChange={type}>
        <Label>{paste.field}</Label>
        <TextArea rows={5} spellCheck="false" />
      </TextField>
      <p className="quiet">{paste.how}</p>
      {pasted && (
        <Preview
          {...{ pasted, rows, leftOut }}
          onColumns={choose}
          onLeaveOut={(at, isOut) => {
            const next = new Set(leftOut);
            if (isOut) next.add(at);
            else next.delete(at);
            leaveOut(next);
          }}
        />
      )}
      <p role="status">{bad > 0 ? paste.bad(bad) : ''}</p>
      <p role="alert">{trouble}</p>
      <Button
        className="key strong wide enter-key"
        isDisabled={drafts.length === 0 || bad > 0}
        onPress={() => void add().catch((error: Error) => setTrouble(error.message))}
      >
        {words.lists.enter(drafts.length)}
      </Button>
    </>
  );
}

function Preview(props: {
  pasted: Pasted;
  rows: ReturnType<typeof judgeRows>;
  leftOut: ReadonlySet<number>;
  onColumns: (columns: readonly ColumnKind[]) => void;
  onLeaveOut: (at: number, isOut: boolean) => void;
}) {
  const { pasted, rows, leftOut } = props;
  return (
    <div className="wide-table" tabIndex={0} role="region" aria-label={paste.preview}>
      <table className="book paste">
        <thead>
          <tr>
            {pasted.columns.map((column, at) => (
              <th scope="col" key={at}>
                <ColumnChoice
                  label={paste.column(at + 1)}
                  column={column}
                  onChoose={(next) =>
                    props.onColumns(pasted.columns.map((each, i) => (i === at ? next : each)))
                  }
                />
              </th>
            ))}
            <th scope="col">{paste.becomes}</th>
            <th scope="col">{paste.out}</th>
          </tr>
        </thead>
        <tbody>
          {pasted.rows.map((cells, at) => (
            <tr key={at} className={leftOut.has(at) ? 'left-out' : ''}>
              {pasted.columns.map((_, column) => (
                <td key={column}>{cells[column]}</td>
              ))}
              <td className={rows[at]?.trouble === undefined ? '' : 'trouble'}>
                {rows[at]?.trouble ?? inWords(rows[at]?.draft)}
              </td>
              <td>
                <Checkbox
                  className="key tick"
                  aria-label={paste.leaveOut(at + 1)}
                  isSelected={leftOut.has(at)}
                  onChange={(isOut) => props.onLeaveOut(at, isOut)}
                >
                  ×
                </Checkbox>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function inWords(draft: ReturnType<typeof judgeRows>[number]['draft']): string {
  return draft ? [words.kinds[draft.kind], draft.pack?.label].filter(Boolean).join(', ') : '';
}

function ColumnChoice(props: {
  label: string;
  column: ColumnKind;
  onChoose: (column: ColumnKind) => void;
}) {
  return (
    <Select
      aria-label={props.label}
      value={props.column}
      onChange={(key) => props.onChoose(key as ColumnKind)}
    >
      <Button className="key">
        <SelectValue />
      </Button>
      <Popover className="sheet list wide-list">
        <ListBox>
          {columnKinds.map((kind) => (
            <ListBoxItem key={kind} id={kind}>
              {paste.columns[kind]}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}
