/** What was answered before a visit's first bowl, and the daily check of a scale. */
import type { MigrationInterface, QueryRunner } from 'typeorm';

export class AnswersAndChecks0013 implements MigrationInterface {
  readonly name = 'AnswersAndChecks0013';

  async up(runner: QueryRunner): Promise<void> {
    await runner.query(`
      -- Said of somebody's health: in a table of its own, gone when the client is forgotten. The
      -- latest word on a question counts; null is no word on it.
      create table visit_answer (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        visit_id uuid not null,
        scalp_sound boolean,
        earlier_reaction boolean,
        henna_or_metal boolean,
        sixteen_or_older boolean,
        sensitivity_test text check (sensitivity_test in
          ('none', 'under 48 h', 'not read', 'no reaction', 'reaction')),
        person_id uuid,
        answered_at timestamptz not null,
        recorded_at timestamptz not null,
        primary key (studio_id, id),
        foreign key (studio_id, visit_id) references visit,
        foreign key (studio_id, person_id) references person
      );
      create index visit_answer_visit on visit_answer (studio_id, visit_id, seq);
      select guard_studio_table('visit_answer', 'select, insert');

      create function forget_answers() returns trigger language plpgsql security definer
        set search_path = public as $f$
      begin
        delete from visit_answer a using visit v
         where a.studio_id = new.studio_id and v.studio_id = a.studio_id
           and v.id = a.visit_id and v.client_id = new.id;
        return null;
      end $f$;
      create trigger forget_answers after update of forgotten_at on client for each row
        when (new.forgotten_at is not null) execute function forget_answers();

      create table scale_check (
        studio_id uuid not null references studio,
        id uuid not null,
        seq bigint generated always as identity,
        bench_id uuid,
        what text not null check (length(what) between 1 and 80),
        weight_g numeric(14,3) not null check (weight_g > 0),
        interval_g numeric(14,3) not null check (interval_g > 0),
        person_id uuid,
        checked_at timestamptz not null,
        recorded_at timestamptz not null,
        primary key (studio_id, id),
        foreign key (studio_id, bench_id) references bench,
        foreign key (studio_id, person_id) references person
      );
      create index scale_check_newest on scale_check (studio_id, checked_at);
      select guard_studio_table('scale_check', 'select, insert');
    `);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(`
      drop table scale_check;
      drop trigger forget_answers on client;
      drop function forget_answers();
      drop table visit_answer;
    `);
  }
}
