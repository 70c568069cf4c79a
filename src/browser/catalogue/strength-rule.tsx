/** Developer strength on a ruler from 0 to 40 vol; the studio's bottles stand on it. */
import { Label, Slider, SliderThumb, SliderTrack } from 'react-aria-components';
import type { ProductView } from '../../../shared/contract/catalogue.js';
import { count, decimal, type Decimal } from '../../../shared/decimal.js';
import { vol } from '../shell/figures.js';
import { texts } from '../shell/texts.js';

const most = 40;
const tens = [0, 10, 20, 30, 40] as const;

/** Where a strength lies on the ruler, as a percentage of its length. */
function at(strength: Decimal | string): string {
  return `${decimal(strength).dividedBy(most).times(100).toFixed(2)}%`;
}

/** The ruler; a whole vol a step. */
export function StrengthRule(props: {
  strength: Decimal;
  developers: readonly ProductView[];
  onChange: (strength: Decimal) => void;
}) {
  const bottles = props.developers.filter(({ strength }) => strength !== null);
  const value = Number.parseInt(props.strength.toFixed(0), 10);
  return (
    <Slider
      className="strength"
      value={value}
      onChange={(next) => props.onChange(count(next))}
      minValue={0}
      maxValue={most}
      step={1}
    >
      <Label>{texts.plan.strength}</Label>
      <output className="figure">{vol(props.strength)}</output>
      <SliderTrack className="strength-track">
        {tens.map((ten) => (
          <span key={ten} className="ten" style={{ left: at(`${ten}`) }}>
            {ten}
          </span>
        ))}
        {bottles.map((bottle) => (
          <span
            key={bottle.id}
            className="bottle"
            style={{ left: at(bottle.strength ?? '0') }}
            title={bottle.name}
          />
        ))}
        <SliderThumb className="strength-poise" aria-label={texts.plan.strengthField} />
      </SliderTrack>
    </Slider>
  );
}
