/** Products by their bar codes: a reader types them one after the other, then they are named. */
import { useRef, useState, type RefObject } from 'react';
import { Button, Form } from 'react-aria-components';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { canonical } from '../../../shared/decimal.js';
import { readGtin } from '../../../shared/gtin.js';
import type { ProductKind } from '../../../shared/mix.js';
import { productKinds } from '../../../shared/product-card.js';
import { packLabel, troubleOf, unitOfKind, type ProductDraft } from './drafts.js';
import { useEntering } from './entering.js';
import { forgetKept, useKept } from './kept.js';
import { PickField } from './pick-field.js';
import { readPack, readStrength } from './read-words.js';
import { TextLine } from './text-line.js';
import { words } from './texts.js';
import type { EnterPart } from './tick-part.js';

const { scan } = words;
const keptAs = 'scanned';

/** One code, and what the person says of it. */
interface Scanned {
  readonly gtin: string;
  readonly name: string;
  readonly kind: ProductKind;
  readonly pack: string;
  readonly strength: string;
}

const kinds = productKinds
  .filter((kind) => kind !== 'water')
  .map((id) => ({ id, text: words.kinds[id] }));

/** The field that the reader types into, and a line for every code. */
export function ScanPart(props: EnterPart & { products: readonly ProductView[] }) {
  const [scanned, keep] = useKept<readonly Scanned[]>(keptAs, []);
  const [code, setCode] = useState('');
  const [trouble, setTrouble] = useState('');
  const [refused, setRefused] = useState('');
  const field = useRef<HTMLDivElement>(null);
  const enter = useEntering();
  const drafts = scanned.map((each) => draftOf(each));
  const ready = drafts.flatMap((each) => (typeof each === 'string' ? [] : each));
  const take = () => {
    props.onTyping();
    const found = judge(code, scanned, props.products);
    setTrouble(found.trouble ?? '');
    if (found.gtin !== undefined) {
      const [last] = scanned;
      const like = { kind: last?.kind ?? 'toner', pack: last?.pack ?? '' };
      keep([{ gtin: found.gtin, name: '', strength: '', ...like }, ...scanned]);
    }
    setCode('');
    field.current?.querySelector('input')?.focus();
  };
  const change = (gtin: string, part: Partial<Scanned>) =>
    keep(scanned.map((each) => (each.gtin === gtin ? { ...each, ...part } : each)));
  const add = async () => {
    const count = await enter(ready);
    keep([]);
    forgetKept(keptAs);
    props.onEntered(count);
  };
  return (
    <>
      <CodeField field={field} code={code} trouble={trouble} onCode={setCode} onTake={take} />
      <ul className="plain">
        {scanned.map((each, at) => (
          <Line
            key={each.gtin}
            scanned={each}
            trouble={typeof drafts[at] === 'string' ? drafts[at] : ''}
            onChange={(part) => change(each.gtin, part)}
            onDrop={() => keep(scanned.filter((other) => other !== each))}
          />
        ))}
      </ul>
      <p role="alert">{refused}</p>
      <Button
        className="key strong wide enter-key"
        isDisabled={ready.length === 0 || ready.length < scanned.length}
        onPress={() => void add().catch((error: Error) => setRefused(error.message))}
      >
        {words.lists.enter(ready.length)}
      </Button>
    </>
  );
}

/** Where the reader types; Enter ends a code. */
function CodeField(props: {
  field: RefObject<HTMLDivElement | null>;
  code: string;
  trouble: string;
  onCode: (code: string) => void;
  onTake: () => void;
}) {
  return (
    <Form
      onSubmit={(event) => {
        event.preventDefault();
        props.onTake();
      }}
    >
      <div ref={props.field}>
        <TextLine
          label={scan.field}
          value={props.code}
          onChange={props.onCode}
          trouble={props.trouble}
          autoFocus
        />
      </div>
      <p className="quiet">{scan.how}</p>
    </Form>
  );
}

function Line(props: {
  scanned: Scanned;
  trouble: string;
  onChange: (part: Partial<Scanned>) => void;
  onDrop: () => void;
}) {
  const { scanned, onChange } = props;
  return (
    <li className="scanned" role="group" aria-label={scanned.gtin}>
      <p>
        <strong>{scanned.gtin}</strong>
      </p>
      <div className="fields">
        <TextLine label={scan.name} value={scanned.name} onChange={(name) => onChange({ name })} />
        <PickField
          label={scan.kind}
          items={kinds}
          value={scanned.kind}
          onChoose={(kind) => onChange({ kind: kind as ProductKind })}
        />
        <TextLine label={scan.pack} value={scanned.pack} onChange={(pack) => onChange({ pack })} />
        {scanned.kind === 'developer' && (
          <TextLine
            label={scan.strength}
            value={scanned.strength}
            onChange={(strength) => onChange({ strength })}
          />
        )}
      </div>
      <div className="keys">
        <span className="trouble grow">{props.trouble}</span>
        <Button className="key" aria-label={scan.drop(scanned.gtin)} onPress={props.onDrop}>
          ×
        </Button>
      </div>
    </li>
  );
}

/** A code that was read: taken, there already, or damaged. */
function judge(
  code: string,
  scanned: readonly Scanned[],
  products: readonly ProductView[],
): { gtin?: string; trouble?: string } {
  try {
    const gtin = readGtin(code);
    const product = products.find(({ packs }) => packs.some((pack) => pack.gtin === gtin));
    if (product) return { trouble: scan.known(product.name) };
    if (scanned.some((each) => each.gtin === gtin)) return { trouble: scan.twice };
    return { gtin };
  } catch (error) {
    return { trouble: (error as Error).message };
  }
}

/** The product of a line, or what is missing in it. */
function draftOf({ gtin, name, kind, pack, strength }: Scanned): ProductDraft | string {
  if (name.trim() === '') return scan.nameNeeded;
  const read = readPack(pack);
  if (!read) return scan.packNeeded;
  const told = kind === 'developer' ? readStrength(strength) : {};
  if (!told) return scan.strengthNeeded;
  const draft: ProductDraft = {
    ...{ name: name.trim(), kind, unit: read.unit === 'piece' ? 'piece' : unitOfKind[kind] },
    ...told,
    pack: {
      label: pack.trim().slice(0, 80) || packLabel(read.quantity, read.unit, ''),
      ...{ quantity: canonical(read.quantity), unit: read.unit, gtin },
    },
  };
  return troubleOf(draft) ?? draft;
}
