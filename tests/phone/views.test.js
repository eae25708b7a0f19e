import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { foldWalk } from '../../src/quarterwalk/phone/fold.js';
import { freshPlant, withInsects, withSquares } from '../../src/quarterwalk/phone/plant.js';
import { firstState } from '../../src/quarterwalk/phone/state.js';
import { views } from '../../src/quarterwalk/phone/views/index.js';
import { notedBody } from '../../src/quarterwalk/phone/acts/note.js';
import { DEVICE, FIELD, JOSS, OPENED, WALK, WEN, card, checked, journal, sun, walkOf } from './made.js';

const HASH = 'a'.repeat(64);
const AT = '2026-07-01T09:41:07.250-05:00';
const FIELD_TODAY = {
  id: FIELD, name: 'Windmill 80', grower: 'Gil Ames', due: { on: '2026-07-01', text: 'today' }, stage: 'week 2, day 5',
  last: null, closed_until: null, card: HASH, no_card: null,
};

function state(said = walkOf(41), more = {}) {
  const entries = journal([OPENED, ...said]);
  const walk = foldWalk(entries, { walk: WALK, device: DEVICE, person: JOSS, card });
  const plant = freshPlant(WALK, walk.next, { asked: false, carried: null });
  const people = [{ id: JOSS, name: 'Joss Verel' }, { id: WEN, name: 'Wen Adair' }];
  return {
    ...firstState(), at: AT, now: Date.parse(AT), fetchedAt: AT, canWrite: true, screen: 'plant',
    pairing: { device: DEVICE, token: 't', person: people[0], district: { id: 'd', name: 'North', demo: false } },
    day: { person: people[0], scouts: people, fields: [FIELD_TODAY], district: { demo: false } },
    cards: { [HASH]: card },
    records: entries.map(({ device, seq }) => ({ device, seq, walk: WALK, unsent: 1 })),
    walks: { [WALK]: walk }, walkId: WALK, plant,
    gate: { field: FIELD, card: HASH, walk: null, sign: false },
    note: { quadrant: 'NW', then: 'plant' },
    handover: { to: null, qr: null, link: '' },
    take: { begun: null, fault: 'broken' },
    ...more,
  };
}

const withoutWalk = (more = {}) => state([], { walks: {}, walkId: null, ...more });
const field = (changes) => ({ ...state().day, fields: [{ ...FIELD_TODAY, ...changes }] });

for (const [name, view] of Object.entries(views)) {
  test(`${name} gives its screen all that the screen was drawn by`, () => {
    const drawn = JSON.parse(readFileSync(new URL(`fixtures/${name}.json`, import.meta.url), 'utf8'));
    const given = view(state());
    for (const [situation, example] of Object.entries(drawn)) {
      for (const wanted of Object.keys(example)) assert.ok(wanted in given, `${situation} needs ${wanted}`);
    }
  });
}

test('after 41 clean plants the next is plant 42, the second at the ninth stop', () => {
  const { plantNo, quadrant, stop, stopPlant, inQuadrant, ofQuadrant } = views.plant(state());
  assert.deepEqual([plantNo, quadrant, stop, stopPlant, inQuadrant, ofQuadrant], [42, 'SW', 9, 2, 12, 25]);
});

test('the button says what it will write', () => {
  const plain = state();
  const asked = { ...plain.plant, asked: true };
  const writes = (plant) => views.plant({ ...plain, plant }).writes;
  assert.equal(writes(plain.plant), 'no insects');
  assert.equal(writes(withSquares(asked, 4)), 'no insects, 4 squares healthy');
  assert.equal(writes(withSquares(asked, 0)), 'no insects, no squares');
  const found = withInsects(withInsects(asked, 'adults', 1), 'nymphs', 2);
  assert.equal(writes({ ...found, squares: ['healthy', 'blasted', 'healthy'] }), '1 adult, 2 nymphs, 2 squares healthy, 1 blasted');
});

test('before every quarter has its plants nobody may stop', () => {
  assert.equal(views.plant(state(walkOf(20))).standingWords, 'No stop yet: none checked in SE and SW.');
  assert.equal(views.standing(state(walkOf(39))).title, 'No stop yet: 1 more for a small walk.');
  assert.equal(views.standing(state(walkOf(40))).title, '60 more to a full walk');
  assert.equal(views.standing(state(walkOf(100))).title, 'A full walk');
});

test('what is not known has no figure', () => {
  const { tally } = views.plant(state([]));
  assert.deepEqual([tally.per100, tally.setText, tally.line, tally.floor], ['–', '–', '25', '85 %']);
});

test('a figure is never rounded across its line', () => {
  // 29 insects on 117 plants are 24.8 on 100: under the line of 25, and shown as under it.
  const many = Array.from({ length: 117 }, (_, i) => checked(Math.floor(i / 6) + 1, (i % 6) + 1, { adults: i < 29 ? 1 : 0 }));
  const { per100, insectSide } = views.standing(state(many));
  assert.deepEqual([per100, insectSide], ['24', 'near']);
});

test('a call of the phone is its leaning, until the office has spoken', () => {
  const squares = { healthy: 1, missing: 1 };
  const past = Array.from({ length: 100 }, (_, i) => checked(Math.floor(i / 5) + 1, (i % 5) + 1, { adults: 1, squares }));
  const closed = state([...past, ['walk-closed', { entries: { [DEVICE]: 102 } }]]);
  const { own, office, state: words } = views.call(closed);
  assert.deepEqual([own.lean, office, words], ['treat', null, 'To be confirmed by the office']);
  const calls = { [WALK]: { state: 'closed', waiting: 3, call: { verdict: 'treat' } } };
  const told = views.call({ ...closed, calls });
  assert.equal(told.state, 'Waiting for 3 more from the other phone');
  assert.equal(told.office.verdict, 'treat');
});

const rowOf = (changed) => views.day(changed).fields[0];

test('a field is ready, away, closed, without a card, or has an open walk', () => {
  assert.equal(rowOf(withoutWalk()).state, 'ready');
  assert.equal(rowOf(withoutWalk({ cards: {} })).state, 'not-on-phone');
  assert.equal(rowOf(withoutWalk({ day: field({ closed_until: '2026-07-01T12:00:00-05:00' }) })).state, 'closed');
  assert.equal(rowOf(withoutWalk({ day: field({ closed_until: '2026-07-01T09:00:00-05:00' }) })).state, 'ready');
  assert.equal(rowOf(withoutWalk({ day: field({ card: null, no_card: 'No boundary yet.' }) })).stateWords, 'No boundary yet.');
  assert.equal(rowOf(state()).state, 'open-walk');
});

test('a card not confirmed for more than a day must be called about first', () => {
  const old = (fetchedAt) => rowOf(withoutWalk({ fetchedAt })).state;
  assert.equal(old('2026-06-30T09:41:08.000-05:00'), 'ready');
  assert.equal(old('2026-06-30T09:41:06.000-05:00'), 'old-card');
  assert.ok(views.gate(withoutWalk({ fetchedAt: '2026-06-29T09:00:00.000-05:00' })).old);
});

test('a field left with an open walk is listed though the day no longer has it', () => {
  const left = state(walkOf(3));
  const { fields, next } = views.day({ ...left, day: { ...left.day, fields: [] } });
  assert.equal(fields[0].state, 'open-walk');
  assert.equal(next.label, 'Go on with Windmill 80');
});

test('the way is said from the stop before', () => {
  assert.match(views.where(state(walkOf(30))).legWords, /^\d+ feet from the last stop, to the /);
});

test('without a place to come from the stop and its quarter are named', () => {
  const { entry, ...noGate } = card;
  assert.equal(views.where(state([], { cards: { [HASH]: noGate } })).legWords, 'Stop 1, north-west quarter.');
  assert.match(views.where(state([])).legWords, /^\d+ feet from the gate, to the /);
});

test('where to go is told with the way to face, as long as the card knows the sun', () => {
  const [facing, along] = views.where(state(walkOf(30), { cards: { [HASH]: { ...card, sun } } })).sunWords;
  assert.equal(facing, 'Walk in facing the sun, east (83°). Your shadow falls behind you.');
  assert.equal(along, 'Along the rows, face east (80°).');
  assert.deepEqual(views.where(state(walkOf(30))).sunWords, []);
});

test('a quarter’s note holds what was said and nothing else', () => {
  assert.deepEqual(notedBody({ quadrant: 'NW', then: 'plant' }), { quadrant: 'NW' });
  assert.deepEqual(
    notedBody({ quadrant: 'NW', lost: 'small', water: false, otherPests: null, branches: [8, null, 9], text: ' wet ' }),
    { quadrant: 'NW', lost: 'small', water: false, branches: [8, 9], note: 'wet' },
  );
});

test('who walks now is not offered to hand over to', () => {
  assert.deepEqual(views.handover(state()).scouts.map(({ name }) => name), ['Wen Adair']);
});

test('a window that only reads says so', () => {
  assert.ok(views.plant(state([], { canWrite: false })).readOnly);
});

test('a walk handed to another phone is not what to do next, and once closed there it is walked', () => {
  const away = state([...walkOf(3), ['handed-over', { to: JOSS, entries: 5 }]]);
  const { fields, next } = views.day(away);
  assert.deepEqual([fields[0].stateWords, next], ['Handed over after 3 plants', null]);
  assert.equal(rowOf({ ...away, calls: { [WALK]: { state: 'closed', waiting: 0, call: null } } }).state, 'walked');
});
