/** Who works here: entered one after the other, with a PIN each. */
import { AddPerson } from '../people/add-person.js';
import { usePeople } from '../people/people-list.js';
import { addressOf } from '../shell/place.js';
import { words } from './texts.js';

/** The page; owners add, everybody who may be here reads. */
export default function PeoplePart() {
  const people = usePeople();
  return (
    <div className="two-pages">
      <section className="page">
        <AddPerson />
      </section>
      <section className="page" aria-labelledby="people-there">
        <h2 id="people-there">{words.parts.people(people.length)}</h2>
        <ul className="plain">
          {people.map(({ id, name, role }) => (
            <li key={id}>
              <strong>{name}</strong> {role}
            </li>
          ))}
        </ul>
        <a className="key" href={addressOf('people')}>
          {words.toPeople}
        </a>
      </section>
    </div>
  );
}
