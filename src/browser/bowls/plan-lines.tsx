/** A plan as a page of the account book, with what it makes and its cautions. */
import { nameOf, type MixPlan, type MixProduct } from '../../../shared/mix.js';
import { number, weight } from '../shell/figures.js';
import { texts } from '../shell/texts.js';
import { CautionLines } from './caution-lines.js';
import { productIn } from './next.js';

/** The lines to pour; or why there is no plan yet. */
export function PlanLines(props: {
  plan: MixPlan | string;
  products: ReadonlyMap<string, MixProduct>;
}) {
  const { plan } = props;
  if (typeof plan === 'string') {
    return (
      <p className="blank-page" role="status">
        {plan}
      </p>
    );
  }
  return (
    <>
      <table className="book">
        <thead>
          <tr>
            <th scope="col">{texts.plan.product}</th>
            <th scope="col">{texts.plan.due}</th>
          </tr>
        </thead>
        <tbody>
          {plan.pours.map((pour) => (
            <tr key={pour.productId}>
              <th scope="row">{nameOf(productIn(props.products, pour.productId))}</th>
              <td>{weight(pour.grams)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {plan.strength && (
        <p>
          {texts.plan.developerLine(
            plan.strength.volume.toFixed(3),
            number(plan.strength.percent, 1),
          )}{' '}
          {texts.plan.parallel(number(plan.peroxidePercent, 1))}
        </p>
      )}
      <CautionLines cautions={plan.cautions} />
    </>
  );
}
