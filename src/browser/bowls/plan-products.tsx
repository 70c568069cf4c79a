/** The products of a bowl that is planned: a line each, found by type-ahead. */
import { Button, Input, Label, TextField } from 'react-aria-components';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { decimal } from '../../../shared/decimal.js';
import { ProductField, productInWords } from '../catalogue/product-field.js';
import { readFigure } from '../shell/figures.js';
import { texts } from '../shell/texts.js';
import { useState } from 'react';
import type { Draft, DraftPart } from './draft.js';

interface Props {
  readonly draft: Draft;
  readonly products: readonly ProductView[];
  readonly onChange: (part: Partial<Draft>) => void;
}

const powderKinds: readonly string[] = ['lightener', 'toner', 'permanent', 'direct'];
const besideKinds: readonly string[] = ['additive', 'care'];

/** Powder or cream, with parts where there are several. */
export function Powders({ draft, products, onChange }: Props) {
  const several = draft.powders.length > 1;
  return (
    <Lines
      title={texts.plan.products}
      parts={draft.powders}
      products={products.filter(({ kind }) => powderKinds.includes(kind))}
      figure={several ? { label: texts.plan.partsOf, unit: texts.plan.parts } : undefined}
      onChange={(powders) => onChange({ powders })}
      fresh="1"
    />
  );
}

/** What stands outside of the ratio, in per cent of the whole. */
export function Additives({ draft, products, onChange }: Props) {
  const beside = products.filter(({ kind }) => besideKinds.includes(kind));
  if (beside.length === 0) return null;
  return (
    <Lines
      title={texts.plan.additives}
      parts={draft.additives}
      products={beside}
      figure={{ label: texts.plan.percentOf, unit: texts.plan.percent }}
      onChange={(additives) => onChange({ additives })}
      fresh="3"
    />
  );
}

function Lines(props: {
  title: string;
  parts: readonly DraftPart[];
  products: readonly ProductView[];
  figure: { label: (name: string) => string; unit: string } | undefined;
  onChange: (parts: readonly DraftPart[]) => void;
  fresh: string;
}) {
  const { parts, onChange, figure } = props;
  const chosen = new Set(parts.map(({ productId }) => productId));
  return (
    <fieldset className="book-lines">
      <legend>{props.title}</legend>
      {parts.map((part) => {
        const product = props.products.find(({ id }) => id === part.productId);
        const name = product ? productInWords(product) : '';
        return (
          <div className="book-line" key={part.productId}>
            <span className="grow">{name}</span>
            {figure && (
              <PartsField
                label={figure.label(name)}
                unit={figure.unit}
                parts={part.parts}
                onChange={(next) =>
                  onChange(parts.map((each) => (each === part ? { ...part, parts: next } : each)))
                }
              />
            )}
            <Button
              className="key"
              aria-label={texts.plan.remove(name)}
              onPress={() => onChange(parts.filter((each) => each !== part))}
            >
              ×
            </Button>
          </div>
        );
      })}
      <ProductField
        key={parts.length}
        label={texts.plan.add}
        products={props.products.filter(({ id }) => !chosen.has(id))}
        onChoose={(productId) => onChange([...parts, { productId, parts: props.fresh }])}
      />
    </fieldset>
  );
}

function PartsField(props: {
  label: string;
  unit: string;
  parts: string;
  onChange: (parts: string) => void;
}) {
  const [text, setText] = useState(props.parts);
  const type = (next: string) => {
    setText(next);
    const figure = readFigure(next);
    if (figure?.greaterThan(decimal('0'))) props.onChange(figure.toFixed());
  };
  return (
    <TextField className="small-field" value={text} onChange={type}>
      <Label className="hidden">{props.label}</Label>
      <Input inputMode="decimal" />
      <span aria-hidden="true">{props.unit}</span>
    </TextField>
  );
}
